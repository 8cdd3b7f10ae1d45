// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "heat/air.hpp"

namespace ampstair::heat {

/// A correlation or a table with the quantity its range is stated in.
struct RangeOf {
  const char* name;
  const char* author;
  int year;
  const char* quantity;
  Range range;

  [[nodiscard]] bool holds(double value) const { return value >= range.low && value <= range.high; }
};

/// A range, and the value of its quantity at one surface.
struct ValueInRange {
  const RangeOf* of;
  double value;
};

/// All ranges that film_coefficient() rests on at a surface, with their values there.
/// @param surface as for film_coefficient()
std::vector<ValueInRange> values_in_ranges(Shape shape, const Extent& extent, double surface,
                                           const Flow& flow);

}  // namespace ampstair::heat
