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
  const RecordOptions options(
      "verdict", "verdict RECORD [--watch FILE] [--json]",
      "Judges a record by the watch items of its run sheet; nothing is marched again.",
      {{"watch", "FILE", "judge by the watch items of this YAML file instead"},
       {"json", "", "print JSON (postprocess/VERDICT.md) instead of tables"}});
  const auto given = options.read(arguments);
  if (!given) {
    return diagnostics::ExitCode::clear;
  }
  const auto histories = checks::open_record(given->record);
  const auto items = given->has("watch") ? watch::read_items(given->options.at("watch"))
                                         : checks::stored_items(*histories);
  const auto findings = checks::judge(*histories, items);
  std::cout << (given->has("json") ? verdict_json(findings, given->record)
                                   : verdict_text(findings, given->record));
  return checks::exit_code(findings);
}

}  // namespace ampstair::post::verbs
