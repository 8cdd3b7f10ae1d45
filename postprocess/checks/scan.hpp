// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <limits>
#include <span>
#include <string>
#include <vector>

#include "checks/histories.hpp"

namespace ampstair::post::checks {

/// Takes a history row by row.
class RowTaker {
 public:
  RowTaker() = default;
  virtual ~RowTaker() = default;
  RowTaker(const RowTaker&) = delete;
  RowTaker& operator=(const RowTaker&) = delete;

  /// @param time s
  /// @param temperatures K, one per place of the axis; not a number where there is none
  virtual void take(std::size_t row, double time, std::span<const double> temperatures) = 0;
};

/// Reads a temperature history once, in blocks of rows of bounded size, and hands every row to all
/// takers. A history in degC is turned to K.
/// @param until s, the last moment whose rows are wanted
void scan(const Histories& histories, const history::Series& series, std::span<const double> times,
          std::span<RowTaker* const> takers,
          double until = std::numeric_limits<double>::infinity());

}  // namespace ampstair::post::checks
