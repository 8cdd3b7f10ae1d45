// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "diagnostics/problem.hpp"
#include "quantities/dimension.hpp"
#include "sheet/declaration.hpp"

namespace ampstair::scenario {

/// A column that a file may or must have.
struct ColumnWanted {
  std::string name;
  quantities::Dimension dimension;
  sheet::Bounds bounds;  ///< SI
  bool required = false;
};

/// A file of columns, read.
struct ColumnFile {
  std::string text;                         ///< word for word
  std::vector<std::vector<double>> column;  ///< SI, as wanted; empty where the file has none
};

/// Reads a comma-separated file (RFC 4180 without quotes): a header `time [min], temperature
/// [degC]` with any unit of their kind in the brackets, then rows of as many numbers. Columns come
/// in any order; the first one wanted has to rise from row to row, beginning at 0. Empty lines and
/// lines that begin with '#' are passed over.
/// @param named where the sheet names the file, for one that cannot be read
/// @return nothing where there are faults, which are added with their line and column
std::optional<ColumnFile> read_columns(const std::filesystem::path& path,
                                       const std::vector<ColumnWanted>& wanted,
                                       const diagnostics::Place& named,
                                       diagnostics::ProblemList& problems);

}  // namespace ampstair::scenario
