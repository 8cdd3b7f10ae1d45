// SPDX-License-Identifier: MIT
#pragma once

// A small record of invented numbers, for the tests of history/.

#include <array>
#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

#include "history/layout.hpp"
#include "history/writer.hpp"

namespace ampstair::test {

/// A folder of its own for one test, removed with all that is in it.
class ScratchFolder {
 public:
  ScratchFolder();
  ~ScratchFolder() { std::filesystem::remove_all(path_); }
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;

  [[nodiscard]] std::filesystem::path operator/(const std::string& name) const {
    return path_ / name;
  }
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  /// Names of all files in it, hidden ones too, sorted.
  [[nodiscard]] std::vector<std::string> names() const;

 private:
  std::filesystem::path path_;
};

inline constexpr std::size_t sample_places = 7;

/// Scalar "current", "temperature" over "position" in single precision, tables, a field of 3 cells.
history::Layout sample_layout();

/// What the sample holds: exact in single precision for rows below a million.
double sample_time(std::size_t row);
double sample_current(std::size_t row);
double sample_temperature(std::size_t row, std::size_t place);

void append_sample_row(history::RecordWriter& writer, std::size_t row);

/// A finished record of `rows` rows.
void write_sample(const std::filesystem::path& path, std::size_t rows,
                  history::IfExists if_exists = history::IfExists::refuse);

}  // namespace ampstair::test
