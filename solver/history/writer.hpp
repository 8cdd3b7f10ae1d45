// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <memory>
#include <span>
#include <string>

#include "history/layout.hpp"

namespace ampstair::history {

enum class IfExists { refuse, replace_when_finished };

/// Writes one record. Rows are appended and flushed; a run killed at any instant leaves a file that
/// opens and ends at its last flushed row, with finished = 0. A record that replaces an old one is
/// called "<name>.partial" until it is finished, and the old one stands until then.
///
/// Every flush gives the name to a whole new copy of the file in one rename, so that readers need
/// no lock and never see half a row. In between the record is kept in memory.
///
/// append, append_field, flush and finish throw std::runtime_error when the disk refuses (full,
/// taken away); the record then ends at its last flushed row and takes no more.
class RecordWriter {
 public:
  /// A number known only at the end; it becomes a root attribute.
  struct Closing {
    std::string name;
    double value;
  };

  /// @throws diagnostics::InputError when the file exists and may not be replaced, is being written
  ///   by another run, or cannot be made; nothing is left of it then
  RecordWriter(const std::filesystem::path& path, const Layout& layout, IfExists if_exists);
  /// Flushes what was appended; a record not finished stays so.
  ~RecordWriter();
  RecordWriter(const RecordWriter&) = delete;
  RecordWriter& operator=(const RecordWriter&) = delete;

  /// Appends a row. `values[k]` belongs to layout.series[k] and has its axis's length (1 without).
  /// @param time s since the start
  void append(double time, std::span<const std::span<const double>> values);
  /// Writes a whole r-z field taken at `time`: one value in degC per grid cell (axis "cell", which
  /// the layout must have).
  void append_field(double time, std::span<const double> temperature);
  /// Flushes rows kept back; called by itself about twice a second.
  void flush();
  /// Marks the record finished and closes it; a replacement takes the old one's name only now.
  /// @param tables known only at the end, of groups the layout does not have
  void finish(std::span<const Closing> closing, std::span<const Table> tables = {});

 private:
  class Storage;
  std::unique_ptr<Storage> storage_;
};

}  // namespace ampstair::history
