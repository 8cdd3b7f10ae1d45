// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <vector>

#include "checks/histories.hpp"

namespace ampstair::post::tables {

/// Writes a record's histories as CSV files (RFC 4180, UTF-8) into a directory, made if need be:
/// series.csv with the scalar histories, probes.csv where there are probes, and one file for every
/// history on an axis. The first column is always `time [s]`; every heading names its unit.
/// No file takes its name before all of them are written whole.
/// @return the files written, in order
/// @throws diagnostics::InputError: a file of that name exists and `overwrite` is false, or the
///   directory cannot be written
std::vector<std::filesystem::path> export_csv(const checks::Histories& histories,
                                              const std::filesystem::path& directory,
                                              bool overwrite);

}  // namespace ampstair::post::tables
