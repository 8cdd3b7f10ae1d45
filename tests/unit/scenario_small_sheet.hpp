// SPDX-License-Identifier: MIT
#pragma once

#include <catch2/catch.hpp>
#include <sstream>
#include <string>

#include "diagnostics/problem.hpp"
#include "scenario/arrangement.hpp"
#include "scenario/load.hpp"

namespace ampstair::tests {

using namespace scenario;

/// A small sound sheet; the marked parts can be exchanged.
struct SmallSheet {
  std::string metal = "{gauge: No. 14}";
  std::string layers = "[{material: rubber-aged-soft, thickness: 1 mm}]";
  std::string middle = "{piece: open, name: leg, length: 1 m}";
  std::string around = "{air: 20 degC}";
  std::string supply = "{mode: current}";
  std::string steps = "[{hold: 10 A, for: 20 min}]";
  std::string rest;

  [[nodiscard]] std::string text() const {
    return "format: run-sheet 1\ntitle: small\nwire:\n  metal: " + metal + "\n  layers: " + layers +
           "\nrun:\n  - {piece: cut-end, name: a, insulated: true}\n  - " + middle +
           "\n  - {piece: cut-end, name: b, held_at: 30 degC}\naround: " + around +
           "\nsupply: " + supply + "\nstaircase: " + steps + "\n" + rest;
  }
};

inline Loaded loaded(const SmallSheet& sheet) {
  try {
    return load_text(sheet.text(), "small.yaml", as_built);
  } catch (const diagnostics::InputError& error) {
    std::ostringstream told;
    error.problems().print(told);
    FAIL(told.str());
    throw;
  }
}

inline std::string only_code(const SmallSheet& sheet) {
  try {
    const auto warnings = load_text(sheet.text(), "small.yaml", as_built).warnings.sorted();
    return warnings.size() == 1 ? warnings[0].code : "none";
  } catch (const diagnostics::InputError& error) {
    std::ostringstream told;
    error.problems().print(told);
    const auto all = error.problems().sorted();
    return all.size() == 1 ? all[0].code : told.str();
  }
}

}  // namespace ampstair::tests
