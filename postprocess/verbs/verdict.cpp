// SPDX-License-Identifier: MIT

#include <iostream>

#include "checks/histories.hpp"
#include "checks/judge.hpp"
#include "checks/stored_items.hpp"
#include "verbs/post_verbs.hpp"
#include "verbs/record_options.hpp"
#include "verbs/verdict_json.hpp"
#include "verbs/verdict_text.hpp"
#include "watch/item_file.hpp"

namespace ampstair::post::verbs {

diagnostics::ExitCode verdict(Arguments arguments) {
  namespace po = boost::program_options;
  Options declared(
      "verdict", "verdict RECORD [--watch FILE] [--json]",
      "Judges a record by the watch items of its run sheet; nothing is marched again.");
  declared.add()("watch", po::value<std::string>()->value_name("FILE"),
                 "judge by the watch items of this YAML file instead")(
      "json", "print JSON (postprocess/VERDICT.md) instead of tables");
  const auto options = declared.read(arguments);
  if (!options) {
    return diagnostics::ExitCode::clear;
  }
  const std::string record = record_of(*options);
  const auto histories = checks::open_record(record);
  const auto items = options->count("watch") > 0
                         ? watch::read_items((*options)["watch"].as<std::string>())
                         : checks::stored_items(*histories);
  const auto findings = checks::judge(*histories, items);
  std::cout << (options->count("json") > 0 ? verdict_json(findings, record)
                                           : verdict_text(findings, record));
  return checks::exit_code(findings);
}

}  // namespace ampstair::post::verbs
