// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "diagnostics/problem.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::scenario {

/// A measured or planned load: amperes or volts against time.
struct LoadTable {
  bool volts = false;         ///< else amperes
  std::vector<double> time;   ///< s, the first 0, ascending, at least two
  std::vector<double> level;  ///< A or V, as many, none below 0
  std::string text;           ///< of its file, word for word
};

/// Reads a file of the columns `time` and either `current` or `voltage` (see read_columns).
/// @param named where the sheet names the file
/// @return nothing where there are faults, which are added with their line and column
std::optional<LoadTable> read_load_table(const std::filesystem::path& path,
                                         const diagnostics::Place& named,
                                         diagnostics::ProblemList& problems);

/// How a step follows a table: each level held until the next row, or straight lines between rows.
/// Stretches that go on as the one before are left out.
/// @param duration s; a table that ends before goes on with its last level
std::vector<Leg> legs_of(const LoadTable& table, bool linear, double duration);

}  // namespace ampstair::scenario
