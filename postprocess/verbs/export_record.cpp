// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "checks/histories.hpp"
#include "diagnostics/problem.hpp"
#include "export/export.hpp"
#include "verbs/post_verbs.hpp"
#include "verbs/record_options.hpp"

namespace ampstair::post::verbs {

diagnostics::ExitCode export_record(Arguments arguments) {
  namespace po = boost::program_options;
  Options declared("export", "export RECORD --csv DIR [--overwrite]",
                   "Writes series.csv, probes.csv and one CSV file for every history on an axis.");
  declared.add()("csv", po::value<std::string>()->value_name("DIR"),
                 "directory to write to, made if need be")("overwrite",
                                                           "replace files of the same names");
  const auto options = declared.read(arguments);
  if (!options) {
    return diagnostics::ExitCode::clear;
  }
  if (options->count("csv") == 0) {
    throw diagnostics::InputError("E703", "export needs to know what to write and where.",
                                  "add  --csv DIR");
  }
  const auto histories = checks::open_record(record_of(*options));
  const auto files = tables::export_csv(*histories, (*options)["csv"].as<std::string>(),
                                        options->count("overwrite") > 0);
  for (const auto& file : files) {
    fmt::print("{}\n", file.string());
  }
  return diagnostics::ExitCode::clear;
}

}  // namespace ampstair::post::verbs
