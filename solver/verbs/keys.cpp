// SPDX-License-Identifier: MIT
#include <iostream>

#include "materials/material_sheet.hpp"
#include "scenario/run_sheet.hpp"
#include "verbs/options.hpp"
#include "verbs/verbs.hpp"

namespace ampstair::verbs {

diagnostics::ExitCode keys(Arguments arguments) {
  Options declared("keys [--schema] [--material]",
                   "Prints every key a run sheet may hold: meaning, unit, bounds and default.", 0);
  declared.add()("schema", "as a JSON Schema (draft 2020-12) instead")(
      "material", "keys of a file of the materials library instead");
  const auto options = declared.read(arguments);
  if (!options) {
    return diagnostics::ExitCode::clear;
  }
  const auto print = [&](const auto& mapping) {
    if (options->count("schema") > 0) {
      std::cout << sheet::json_schema(mapping) << '\n';
    } else {
      sheet::print_reference(std::cout, mapping);
    }
  };
  if (options->count("material") > 0) {
    print(materials::library_keys());
  } else {
    print(scenario::run_sheet_keys());
  }
  return diagnostics::ExitCode::clear;
}

}  // namespace ampstair::verbs
