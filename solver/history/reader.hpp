// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "history/layout.hpp"

namespace ampstair::history {

/// Reads a record, finished or not; never writes.
class RecordReader {
 public:
  /// @throws diagnostics::InputError: not a record, another format version, cannot be read
  explicit RecordReader(const std::filesystem::path& path);
  ~RecordReader();
  RecordReader(const RecordReader&) = delete;
  RecordReader& operator=(const RecordReader&) = delete;

  [[nodiscard]] bool finished() const;
  [[nodiscard]] std::string attribute(const std::string& name) const;  ///< root attribute as text
  [[nodiscard]] std::string sheet_text() const;
  [[nodiscard]] std::vector<double> times() const;  ///< s
  [[nodiscard]] const std::vector<Series>& series() const;
  [[nodiscard]] bool has(const std::string& path) const;
  [[nodiscard]] std::vector<double> axis(const std::string& name) const;
  /// A scalar history, whole.
  [[nodiscard]] std::vector<double> scalar(const std::string& name) const;
  /// Rows [first, first + count) of a history on an axis, row-major (count, axis length).
  [[nodiscard]] std::vector<double> rows(const std::string& name, std::size_t first,
                                         std::size_t count) const;
  [[nodiscard]] std::vector<double> numbers(const std::string& group, const std::string& column) const;
  [[nodiscard]] std::vector<std::int64_t> integers(const std::string& group,
                                                   const std::string& column) const;
  [[nodiscard]] std::vector<std::string> texts(const std::string& group,
                                               const std::string& column) const;

 private:
  class Storage;
  std::unique_ptr<Storage> storage_;
};

}  // namespace ampstair::history
