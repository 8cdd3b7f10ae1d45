// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>

#include "diagnostics/problem.hpp"
#include "scenario/run_sheet.hpp"
#include "scenario/scenario.hpp"
#include "sheet/document.hpp"

namespace ampstair::scenario {

/// A run sheet that can be marched, with what was read on the way.
struct Loaded {
  sheet::Document document;
  RunSheet sheet;  ///< with the arrangement's changes made
  Scenario scenario;
  diagnostics::ProblemList warnings;
};

/// Reads and checks a run sheet and builds one arrangement of it.
/// @throws diagnostics::InputError with all errors of the sheet, of every arrangement, and with the
/// warnings of the one asked for
Loaded load(const std::filesystem::path& path, const std::string& arrangement);

/// The same from a sheet's text.
/// @param name for messages; the folder in it is where `materials/` is looked for
Loaded load_text(std::string_view text, const std::string& name, const std::string& arrangement);

}  // namespace ampstair::scenario
