// SPDX-License-Identifier: MIT
#include <iostream>

#include "checks/judge.hpp"
#include "checks/stored_items.hpp"
#include "diagnostics/problem.hpp"
#include "verbs/compare_json.hpp"
#include "verbs/compare_text.hpp"
#include "verbs/post_verbs.hpp"
#include "verbs/record_options.hpp"
#include "watch/item_file.hpp"

namespace ampstair::post::verbs {

diagnostics::ExitCode compare(Arguments arguments) {
  const RecordOptions options(
      "compare", "compare RECORD RECORD... [--watch FILE] [--json]",
      "Sets records on one clock: in what their sheets differ, and what that did to the answer.\n"
      "Differences are against the first record; nothing is marched again.",
      {{"watch", "FILE", "judge by the watch items of this YAML file instead"},
       {"json", "", "print JSON (postprocess/COMPARE.md) instead of tables"}},
      RecordOptions::Records::several);
  const auto given = options.read(arguments);
  if (!given) {
    return diagnostics::ExitCode::clear;
  }
  if (given->others.empty()) {
    throw diagnostics::InputError("E702", "compare needs at least two records.",
                                  "see  ampstair-post compare --help");
  }
  auto names = given->others;
  names.insert(names.begin(), given->record);
  std::vector<Compared> records;
  for (const auto& name : names) {
    auto histories = checks::open_record(name);
    const auto items = given->has("watch") ? watch::read_items(given->options.at("watch"))
                                           : checks::stored_items(*histories);
    auto findings = checks::judge(*histories, items);
    records.push_back({name, std::move(histories), std::move(findings)});
  }
  std::cout << (given->has("json") ? compare_json(records) : compare_text(records));
  return diagnostics::ExitCode::clear;
}

}  // namespace ampstair::post::verbs
