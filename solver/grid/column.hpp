// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <vector>

#include "grid/grid.hpp"

namespace ampstair::grid {

/// A cell of one station's column.
struct ColumnCell {
  std::size_t cell = 0;
  std::size_t patch = 0;
  std::size_t row = 0;        ///< within the patch
  bool goes_on = false;       ///< its row has a next station
  double inner_radius = 0.0;  ///< m
  double outer_radius = 0.0;  ///< m
};

/// The cells over one station, from the conductor outwards.
std::vector<ColumnCell> column_at(const Grid& grid, std::size_t station);

/// Natural logarithm of the radius at which a steady logarithmic profile between two radii equals
/// its mean over the ring: where a ring-shaped cell's temperature holds.
double log_mean_radius(double inner, double outer);

}  // namespace ampstair::grid
