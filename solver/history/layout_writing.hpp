// SPDX-License-Identifier: MIT
#pragma once

// Inside history/ only.

#include <filesystem>
#include <optional>
#include <vector>

#include "history/handle.hpp"
#include "history/history_dataset.hpp"
#include "history/layout.hpp"

namespace ampstair::history {

inline constexpr const char* march_record = "ampstair march";
inline constexpr int format_major = 1;
inline constexpr int format_minor = 3;

/// Times and temperatures of the whole r-z field, in the group "fields".
struct FieldDatasets {
  HistoryDataset time;
  HistoryDataset temperature;
};

/// A record open for writing: everything but its rows is in it.
struct OpenRecord {
  Handle file;
  HistoryDataset time;
  std::vector<HistoryDataset> series;  ///< in the order of Layout::series
  std::optional<FieldDatasets> fields;
};

/// Makes an HDF5 file in memory and writes all of `layout` into it.
/// @param path what HDF5 calls the file; nothing is made on the disk
OpenRecord write_layout(const std::filesystem::path& path, const Layout& layout);

/// Adds a table to a record.
void write_table(hid_t root, const Table& table);

}  // namespace ampstair::history
