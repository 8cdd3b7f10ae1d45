// SPDX-License-Identifier: MIT
#include <iostream>

#include "checks/histories.hpp"
#include "diagnostics/problem.hpp"
#include "export/export.hpp"
#include "export/json.hpp"
#include "export/xdmf.hpp"
#include "verbs/post_verbs.hpp"
#include "verbs/record_options.hpp"

namespace ampstair::post::verbs {

diagnostics::ExitCode export_record(Arguments arguments) {
  const RecordOptions options(
      "export", "export RECORD [--csv DIR] [--json FILE] [--xdmf FILE] [--overwrite]",
      "Writes what a record holds in other formats; at least one has to be asked for.",
      {{"csv", "DIR",
        "directory for series.csv, probes.csv and one CSV file for every history on an axis"},
       {"json", "FILE", "histories and tables with units and meanings (see  schema export)"},
       {"xdmf", "FILE",
        "the r-z field through time for viewers of fields: XDMF 3, with HDF5 files beside it"},
       {"overwrite", "", "replace files of the same names"}});
  const auto given = options.read(arguments);
  if (!given) {
    return diagnostics::ExitCode::clear;
  }
  if (!given->has("csv") && !given->has("json") && !given->has("xdmf")) {
    throw diagnostics::InputError("E703", "export needs to know what to write and where.",
                                  "add  --csv DIR, --json FILE or --xdmf FILE");
  }
  const auto histories = checks::open_record(given->record);
  const bool overwrite = given->has("overwrite");
  if (given->has("csv")) {
    for (const auto& file : tables::export_csv(*histories, given->options.at("csv"), overwrite)) {
      std::cout << file.string() << '\n';
    }
  }
  if (given->has("json")) {
    std::cout << tables::export_json(*histories, given->options.at("json"), overwrite).string()
              << '\n';
  }
  if (given->has("xdmf")) {
    for (const auto& file : tables::export_xdmf(*histories, given->options.at("xdmf"), overwrite)) {
      std::cout << file.string() << '\n';
    }
  }
  return diagnostics::ExitCode::clear;
}

}  // namespace ampstair::post::verbs
