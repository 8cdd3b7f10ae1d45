// SPDX-License-Identifier: MIT
#include "checks/verdict.hpp"

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
  const auto judged = checks::verdict_on(*histories, items);
  std::cout << (given->has("json") ? verdict_json(judged, given->record)
                                   : verdict_text(judged, given->record));
  return checks::exit_code(judged.findings);
}

}  // namespace ampstair::post::verbs
