// SPDX-License-Identifier: MIT
#include "verbs/record_options.hpp"

#include <fmt/format.h>

#include <boost/program_options.hpp>
#include <iostream>
#include <utility>

#include "diagnostics/problem.hpp"

namespace ampstair::post::verbs {

namespace {

namespace po = boost::program_options;
using Texts = std::vector<std::string>;

po::options_description visible(const std::vector<RecordOptions::Option>& options) {
  po::options_description described("Options");
  described.add_options()("help,h", "print this and stop");
  for (const auto& option : options) {
    if (option.argument.empty()) {
      described.add_options()(option.name.c_str(), option.help.c_str());
    } else {
      described.add_options()(option.name.c_str(), po::value<Texts>()->value_name(option.argument),
                              option.help.c_str());
    }
  }
  return described;
}

po::parsed_options parse(const po::options_description& described, Arguments arguments) {
  po::options_description all;
  all.add(described).add_options()("record", po::value<Texts>());
  po::positional_options_description positions;
  positions.add("record", -1);
  const auto style = po::command_line_style::unix_style ^ po::command_line_style::allow_guessing;
  return po::command_line_parser(Texts(arguments.begin(), arguments.end()))
      .options(all)
      .positional(positions)
      .style(style)
      .run();
}

}  // namespace

RecordOptions::RecordOptions(std::string verb, std::string usage, std::string help,
                             std::vector<Option> options, Records records)
    : verb_(std::move(verb)),
      usage_(std::move(usage)),
      help_(std::move(help)),
      options_(std::move(options)),
      records_(records) {}

std::optional<Given> RecordOptions::read(Arguments arguments) const {
  const std::string see = fmt::format("see  ampstair-post {} --help", verb_);
  const auto described = visible(options_);
  Given given;
  try {
    for (const auto& option : parse(described, arguments).options) {
      if (option.string_key == "help") {
        std::cout << "Usage: ampstair-post " << usage_ << '\n' << help_ << "\n\n" << described;
        return std::nullopt;
      }
      const std::string text = option.value.empty() ? std::string() : option.value.front();
      if (option.string_key == "record" && records_ == Records::several && given.has("record")) {
        given.others.push_back(text);
      } else if (!given.options.emplace(option.string_key, text).second) {
        throw diagnostics::InputError(
            "E702", fmt::format("{}: '{}' is given twice.", verb_, option.string_key), see);
      }
    }
  } catch (const po::error& failure) {
    throw diagnostics::InputError("E701", fmt::format("{}: {}.", verb_, failure.what()), see);
  }
  if (!given.has("record")) {
    throw diagnostics::InputError("E702", fmt::format("{} needs a record.", verb_), see);
  }
  given.record = given.options.at("record");
  given.options.erase("record");
  return given;
}

}  // namespace ampstair::post::verbs
