// SPDX-License-Identifier: MIT
#include <filesystem>
#include <iostream>

#include "diagnostics/problem.hpp"
#include "scenario/arrangement.hpp"
#include "scenario/load.hpp"
#include "verbs/ledger.hpp"
#include "verbs/options.hpp"
#include "verbs/verbs.hpp"

namespace ampstair::verbs {

diagnostics::ExitCode check(Arguments arguments) {
  namespace po = boost::program_options;
  Options declared("check SHEET [--full] [--arrangement NAME]",
                   "Lists all faults of a run sheet at once; without errors prints its pieces and "
                   "steps.",
                   1);
  declared.add()("full", "print the completed sheet, every default marked, instead of the ledger")(
      "arrangement",
      po::value<std::string>()->default_value(scenario::as_built)->value_name("NAME"),
      "which arrangement of the sheet to show");
  const auto options = declared.read(arguments);
  if (!options) {
    return diagnostics::ExitCode::clear;
  }
  const std::filesystem::path sheet = plain_argument(*options, 0);
  const auto loaded = scenario::load(sheet, (*options)["arrangement"].as<std::string>());
  loaded.warnings.print(std::cerr);
  if (options->count("full") > 0) {
    sheet::print_completed(std::cout, scenario::run_sheet_keys(), loaded.sheet);
  } else {
    print_ledger(std::cout, loaded.scenario);
  }
  return diagnostics::ExitCode::clear;
}

}  // namespace ampstair::verbs
