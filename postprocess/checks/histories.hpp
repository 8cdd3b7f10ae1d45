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

namespace ampstair::post::checks {

/// What a record holds, as far as judging it needs; a record on disk is one, columns in memory
/// another. Reads of what is not there throw diagnostics::InputError; ask has() first.
class Histories {
 public:
  Histories() = default;
  virtual ~Histories() = default;
  Histories(const Histories&) = delete;
  Histories& operator=(const Histories&) = delete;

  [[nodiscard]] virtual bool finished() const = 0;
  [[nodiscard]] virtual std::string attribute(const std::string& name) const = 0;
  /// Why the march was to go on past its own stops; empty where it was not.
  [[nodiscard]] virtual std::string beyond() const = 0;
  /// The run sheet, word for word.
  [[nodiscard]] virtual std::string sheet_text() const = 0;
  /// A number known only at the end of a march; none where the record lacks it.
  [[nodiscard]] virtual std::optional<double> closing(const std::string& name) const = 0;
  /// s, ascending; two rows may share a moment (the current jumps there).
  [[nodiscard]] virtual std::vector<double> times() const = 0;
  [[nodiscard]] virtual std::vector<history::Series> series() const = 0;
  [[nodiscard]] virtual bool has(const std::string& path) const = 0;
  /// Its tables, and a table's columns, in the order they were made.
  [[nodiscard]] virtual std::vector<std::string> tables() const = 0;
  [[nodiscard]] virtual std::vector<std::string> columns(const std::string& table) const = 0;
  /// What a table, a column ("pieces/begin") or an axis says of itself; a column of texts has no
  /// units.
  [[nodiscard]] virtual history::Naming naming(const std::string& path) const = 0;
  [[nodiscard]] virtual std::vector<double> axis(const std::string& name) const = 0;
  [[nodiscard]] virtual std::vector<double> scalar(const std::string& name) const = 0;
  /// Rows [first, first + count) of a history on an axis, row-major (count, axis length).
  [[nodiscard]] virtual std::vector<double> rows(const std::string& name, std::size_t first,
                                                 std::size_t count) const = 0;
  [[nodiscard]] virtual std::vector<double> numbers(const std::string& group,
                                                    const std::string& column) const = 0;
  [[nodiscard]] virtual std::vector<std::string> texts(const std::string& group,
                                                       const std::string& column) const = 0;
};

/// Opens a record of a march.
/// @throws diagnostics::InputError: not a record, another format version, cannot be read
std::unique_ptr<Histories> open_record(const std::filesystem::path& path);

}  // namespace ampstair::post::checks
