// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "diagnostics/problem.hpp"
#include "scenario/run_sheet.hpp"

namespace ampstair::scenario {

/// Name of the run without changes; always there.
inline constexpr const char* as_built = "as built";

/// The sheet with the changes of one arrangement made to its pieces. A change that names no piece
/// (E162) or a key its piece does not have goes to `problems`.
/// @throws diagnostics::InputError where the sheet has no arrangement of that name (E167)
RunSheet arranged(const RunSheet& sheet, const std::string& arrangement,
                  diagnostics::ProblemList& problems);

/// 'as built' and the names of the arrangements, in order.
std::vector<std::string> arrangement_names(const RunSheet& sheet);

}  // namespace ampstair::scenario
