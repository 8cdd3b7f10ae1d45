// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "history/layout.hpp"

namespace ampstair::history {

enum class IfExists { refuse, replace_when_finished };

/// Writes one record. Rows are appended and flushed; a run killed at any instant leaves a file that
/// opens and ends at its last flushed row, with finished = 0.
class RecordWriter {
 public:
  /// @throws diagnostics::InputError when the file exists and may not be replaced, or cannot be made
  RecordWriter(const std::filesystem::path& path, const Layout& layout, IfExists if_exists);
  ~RecordWriter();
  RecordWriter(const RecordWriter&) = delete;
  RecordWriter& operator=(const RecordWriter&) = delete;

  /// Appends a row. `values[k]` belongs to layout.series[k] and has its axis's length (1 without).
  void append(double time, std::span<const std::span<const double>> values);
  /// Writes a whole r-z field taken at `time`: one value per grid cell (axis "cell").
  void append_field(double time, std::span<const double> temperature);
  /// Flushes rows kept back; called by itself often enough.
  void flush();
  /// Marks the record finished and closes it; a replacement takes the old one's name only now.
  /// @param closing scalars known only at the end, written as root attributes
  struct Closing { std::string name; double value; };
  void finish(std::span<const Closing> closing);

 private:
  class Storage;
  std::unique_ptr<Storage> storage_;
};

}  // namespace ampstair::history
