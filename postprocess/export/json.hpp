// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>

#include "checks/histories.hpp"

namespace ampstair::post::tables {

/// Writes a record's run, histories and tables as one JSON file (RFC 8259, UTF-8), by the schema
/// "ampstair-export/1": every history and column with its unit and meaning, histories with their
/// source too; what does not exist is null. Left out: fields and their table of cells. History by
/// history and a few rows at a time, so that memory does not grow with the record.
/// @throws diagnostics::InputError: a file of that name exists and `overwrite` is false, or it
///   cannot be written
std::filesystem::path export_json(const checks::Histories& histories,
                                  const std::filesystem::path& file, bool overwrite);

}  // namespace ampstair::post::tables
