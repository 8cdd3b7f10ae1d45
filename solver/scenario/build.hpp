// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "diagnostics/problem.hpp"
#include "materials/library.hpp"
#include "scenario/run_sheet.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::scenario {

/// Builds one arrangement of a run sheet. All faults found go to `problems`, which may hold those
/// of reading already; with errors in it the scenario is not complete and must not be marched.
Scenario build_scenario(const RunSheet& sheet, const materials::Library& library,
                        const std::string& arrangement, diagnostics::ProblemList& problems);

}  // namespace ampstair::scenario
