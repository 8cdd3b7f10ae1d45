// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "history/layout.hpp"

namespace ampstair::history {

/// Reads a record, finished or not; never writes. It sees the record as it was when opened, also
/// while a march goes on writing. Each read below throws diagnostics::InputError naming the file
/// and the dataset if that is missing or not as RECORD_FORMAT.md says.
class RecordReader {
 public:
  /// @throws diagnostics::InputError: not a record, another format version, cannot be read
  explicit RecordReader(const std::filesystem::path& path);
  ~RecordReader();
  RecordReader(const RecordReader&) = delete;
  RecordReader& operator=(const RecordReader&) = delete;

  [[nodiscard]] bool finished() const;
  /// A root attribute as text; {1, 0} reads "1.0".
  [[nodiscard]] std::string attribute(const std::string& name) const;
  /// The same of one that only some records have; empty in the others.
  [[nodiscard]] std::string attribute_if_any(const std::string& name) const;
  /// A number known only at the end of a march (RecordWriter::Closing); none where it is lacking.
  [[nodiscard]] std::optional<double> closing(const std::string& name) const;
  [[nodiscard]] std::string sheet_text() const;
  [[nodiscard]] std::vector<double> times() const;  ///< s
  /// The histories in the order they were declared, without "time" and without fields.
  [[nodiscard]] const std::vector<Series>& series() const;
  /// Whether there is a dataset or group of that path: "current", "pieces", "pieces/begin".
  [[nodiscard]] bool has(const std::string& path) const;
  /// Groups that are tables, and a table's columns without its "entry", in the order they were
  /// made.
  [[nodiscard]] std::vector<std::string> tables() const;
  [[nodiscard]] std::vector<std::string> columns(const std::string& table) const;
  /// What a table, a column or an axis says of itself; no units: it has none.
  [[nodiscard]] Naming naming(const std::string& path) const;
  [[nodiscard]] std::vector<double> axis(const std::string& name) const;
  /// A scalar history, whole.
  [[nodiscard]] std::vector<double> scalar(const std::string& name) const;
  /// Rows [first, first + count) of a history on an axis, row-major (count, axis length).
  /// Fields are read as rows("fields/field_temperature", ...) at axis("fields/field_time").
  [[nodiscard]] std::vector<double> rows(const std::string& name, std::size_t first,
                                         std::size_t count) const;
  [[nodiscard]] std::vector<double> numbers(const std::string& group,
                                            const std::string& column) const;
  [[nodiscard]] std::vector<std::int64_t> integers(const std::string& group,
                                                   const std::string& column) const;
  [[nodiscard]] std::vector<std::string> texts(const std::string& group,
                                               const std::string& column) const;

 private:
  class Storage;
  std::unique_ptr<Storage> storage_;
};

}  // namespace ampstair::history
