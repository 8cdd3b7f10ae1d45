// SPDX-License-Identifier: MIT
#include <iostream>

#include "checks/histories.hpp"
#include "diagnostics/problem.hpp"
#include "export/export.hpp"
#include "verbs/post_verbs.hpp"
#include "verbs/record_options.hpp"

namespace ampstair::post::verbs {

diagnostics::ExitCode export_record(Arguments arguments) {
  const RecordOptions options(
      "export", "export RECORD --csv DIR [--overwrite]",
      "Writes series.csv, probes.csv and one CSV file for every history on an axis.",
      {{"csv", "DIR", "directory to write to, made if need be"},
       {"overwrite", "", "replace files of the same names"}});
  const auto given = options.read(arguments);
  if (!given) {
    return diagnostics::ExitCode::clear;
  }
  if (!given->has("csv")) {
    throw diagnostics::InputError("E703", "export needs to know what to write and where.",
                                  "add  --csv DIR");
  }
  const auto histories = checks::open_record(given->record);
  for (const auto& file :
       tables::export_csv(*histories, given->options.at("csv"), given->has("overwrite"))) {
    std::cout << file.string() << '\n';
  }
  return diagnostics::ExitCode::clear;
}

}  // namespace ampstair::post::verbs
