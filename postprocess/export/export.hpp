// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <vector>

#include "checks/histories.hpp"

namespace ampstair::post::tables {

/// Writes a record's histories as CSV files (RFC 4180, UTF-8) into a directory, made if need be:
/// series.csv with the scalar histories, probes.csv where there are probes, and one file for every
/// history on an axis. The first column is always `time [s]`; every heading names its unit.
/// Where a run sheet gave a reason to go on past its own stops, a last column `beyond` has it in
/// every row, so that it stands on what is cut out of a file, too. No file takes its name before
/// all of them are written whole.
/// @return the files written, in order
/// @throws diagnostics::InputError: a file of that name exists and `overwrite` is false, or the
///   directory cannot be written
std::vector<std::filesystem::path> export_csv(const checks::Histories& histories,
                                              const std::filesystem::path& directory,
                                              bool overwrite);

}  // namespace ampstair::post::tables
