// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

namespace ampstair::verbs {

/// A table's column: one value for each of its rows, which stand elsewhere.
template <class Rows, class Value>
auto column(const Rows& rows, const Value& value) {
  std::vector<decltype(value(rows.front()))> out;
  out.reserve(rows.size());
  for (const auto& row : rows) {
    out.push_back(value(row));
  }
  return out;
}

}  // namespace ampstair::verbs
