// SPDX-License-Identifier: MIT
#include "verbs/options.hpp"

#include <fmt/format.h>

#include <sstream>
#include <utility>
#include <vector>

#include "diagnostics/problem.hpp"

namespace ampstair::verbs {

namespace po = boost::program_options;

namespace {

using Words = std::vector<std::string>;

std::string first_word(const std::string& text) {
  return text.substr(0, text.find(' '));
}

}  // namespace

Options::Options(std::string usage, std::string help, std::size_t plain)
    : usage_(std::move(usage)), help_(std::move(help)), plain_(plain) {
  visible_.add_options()("help,h", "print this and stop");
}

po::options_description_easy_init Options::add() {
  return visible_.add_options();
}

std::optional<po::variables_map> Options::read(Arguments arguments) const {
  const std::string verb = first_word(usage_);
  const std::string see = fmt::format("see  ampstair {} --help", verb);
  po::options_description all;
  all.add(visible_).add_options()("arguments", po::value<Words>());
  po::positional_options_description positions;
  positions.add("arguments", -1);
  po::variables_map options;
  try {
    const auto style = po::command_line_style::unix_style ^ po::command_line_style::allow_guessing;
    po::store(po::command_line_parser(Words(arguments.begin(), arguments.end()))
                  .options(all)
                  .positional(positions)
                  .style(style)
                  .run(),
              options);
  } catch (const po::error& failure) {
    throw diagnostics::InputError("E600", fmt::format("{}: {}.", verb, failure.what()), see);
  }
  if (options.count("help") > 0) {
    std::ostringstream listed;
    listed << visible_;
    fmt::print("Usage: ampstair {}\n{}\n\n{}", usage_, help_, listed.str());
    return std::nullopt;
  }
  const std::size_t given =
      options.count("arguments") > 0 ? options["arguments"].as<Words>().size() : std::size_t{0};
  if (plain_ != any_number && given != plain_) {
    throw diagnostics::InputError("E600",
                                  fmt::format("{} takes {} argument{} besides its options (read "
                                              "{}).",
                                              verb, plain_, plain_ == 1 ? "" : "s", given),
                                  "ampstair " + usage_);
  }
  return options;
}

std::string plain_argument(const po::variables_map& options, std::size_t i) {
  return options["arguments"].as<Words>().at(i);
}

std::vector<std::string> plain_arguments(const po::variables_map& options) {
  return options.count("arguments") > 0 ? options["arguments"].as<Words>() : Words();
}

}  // namespace ampstair::verbs
