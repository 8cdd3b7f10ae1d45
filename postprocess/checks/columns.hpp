// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "checks/histories.hpp"

namespace ampstair::post::checks {

/// One table of a record, read column by column.
class Columns {
 public:
  Columns(const Histories& histories, std::string table)
      : histories_(histories), table_(std::move(table)) {}

  /// Whether the record has a column.
  [[nodiscard]] bool has(const std::string& column) const {
    return histories_.has(table_ + "/" + column);
  }
  /// @throws diagnostics::InputError: the record has no such column
  [[nodiscard]] std::vector<std::string> texts(const std::string& column) const {
    return histories_.texts(table_, column);
  }
  /// @throws diagnostics::InputError: the record has no such column
  [[nodiscard]] std::vector<double> numbers(const std::string& column) const {
    return histories_.numbers(table_, column);
  }
  /// `count` times not-a-number where the record lacks the column.
  [[nodiscard]] std::vector<double> numbers_if_any(const std::string& column,
                                                   std::size_t count) const;

 private:
  const Histories& histories_;
  std::string table_;
};

}  // namespace ampstair::post::checks
