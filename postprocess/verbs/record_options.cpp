// SPDX-License-Identifier: MIT
#include "verbs/record_options.hpp"

#include <fmt/format.h>

#include <iostream>
#include <sstream>
#include <utility>
#include <vector>

#include "diagnostics/problem.hpp"

namespace ampstair::post::verbs {

namespace po = boost::program_options;

Options::Options(std::string verb, std::string usage, std::string help)
    : verb_(std::move(verb)), usage_(std::move(usage)), help_(std::move(help)) {
  visible_.add_options()("help,h", "print this and stop");
}

po::options_description_easy_init Options::add() {
  return visible_.add_options();
}

std::optional<po::variables_map> Options::read(Arguments arguments) const {
  const std::string see = fmt::format("see  ampstair-post {} --help", verb_);
  po::options_description all;
  all.add(visible_).add_options()("record", po::value<std::vector<std::string>>());
  po::positional_options_description positions;
  positions.add("record", -1);
  po::variables_map options;
  try {
    const std::vector<std::string> words(arguments.begin(), arguments.end());
    const auto style = po::command_line_style::unix_style ^ po::command_line_style::allow_guessing;
    po::store(po::command_line_parser(words).options(all).positional(positions).style(style).run(),
              options);
  } catch (const po::error& failure) {
    throw diagnostics::InputError("E701", fmt::format("{}: {}.", verb_, failure.what()), see);
  }
  if (options.count("help") > 0) {
    std::ostringstream listed;
    listed << visible_;
    fmt::print("Usage: ampstair-post {}\n{}\n\n{}", usage_, help_, listed.str());
    return std::nullopt;
  }
  const auto given =
      options.count("record") > 0 ? options["record"].as<std::vector<std::string>>().size() : 0;
  if (given != 1) {
    throw diagnostics::InputError("E702",
                                  fmt::format("{} needs one record ({} given).", verb_,
                                              given == 0 ? "none" : std::to_string(given)),
                                  see);
  }
  return options;
}

std::string record_of(const po::variables_map& options) {
  return options["record"].as<std::vector<std::string>>().front();
}

}  // namespace ampstair::post::verbs
