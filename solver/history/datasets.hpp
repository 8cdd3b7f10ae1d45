// SPDX-License-Identifier: MIT
#pragma once

// Inside history/ only: what every object of a record is made of.

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>

#include "history/handle.hpp"
#include "history/layout.hpp"

namespace ampstair::history {

void put_text(hid_t object, const std::string& name, const std::string& text);
void put_integers(hid_t object, const std::string& name, std::span<const int> values);
void put_number(hid_t object, const std::string& name, double value);

/// A group which remembers the order its members were made in, as netCDF-4 wants it.
Handle make_group(hid_t parent, const std::string& name, const std::string& long_name);

/// A dimension scale of fixed length holding `values`.
Handle make_axis(hid_t parent, const Naming& naming, std::span<const double> values);

/// The numbers 0, 1, ... length-1 as a dimension scale called "entry".
Handle make_entry_axis(hid_t parent, std::size_t length);

/// One column of a table, attached to its group's "entry".
void make_column(hid_t group, hid_t entry, const Table::Column& column);

/// A single text with nothing attached.
void make_text(hid_t parent, const Naming& naming, const std::string& text);

/// An empty, unlimited dimension scale of doubles: a time axis.
Handle make_time(hid_t parent, const Naming& naming);

/// Rows and most places of a chunk.
struct ChunkShape {
  std::size_t rows, places;
};
/// Of a history along the run, 128 kB in single precision: one batch of rows fills it once, a
/// single row or a single place over time stays cheap to read.
inline constexpr ChunkShape history_chunk{32, 1024};
/// Of fields: they come one by one, and few.
inline constexpr ChunkShape field_chunk{1, 32768};

/// An empty history of shape (rows of `time`, length of `axis`) or (rows of `time`).
/// @param axis dimension scale, or H5I_INVALID_HID for one number per row
/// @param most shape of its chunks, if there is an axis
Handle make_history(hid_t parent, const Naming& naming, Precision precision, hid_t time, hid_t axis,
                    std::size_t width, const ChunkShape& most);

}  // namespace ampstair::history
