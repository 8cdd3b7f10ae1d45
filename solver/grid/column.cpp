// SPDX-License-Identifier: MIT
#include "grid/column.hpp"

#include <cmath>

namespace ampstair::grid {

std::vector<ColumnCell> column_at(const Grid& grid, std::size_t station) {
  std::vector<std::size_t> stack{grid.top_patch[station]};
  while (stack.back() != 0) {
    stack.push_back(grid.patches[stack.back()].parent);
  }
  std::size_t rows = 0;
  for (const std::size_t p : stack) {
    rows += grid.patches[p].rows;
  }
  std::vector<ColumnCell> column;
  column.reserve(rows);
  for (auto p = stack.rbegin(); p != stack.rend(); ++p) {
    const Patch& patch = grid.patches[*p];
    for (std::size_t i = 0; i < patch.rows; ++i) {
      column.push_back({patch.row(i) + station - patch.first_station, *p, i,
                        station + 1 < patch.first_station + patch.stations, patch.radius[i],
                        patch.radius[i + 1]});
    }
  }
  return column;
}

double log_mean_radius(double inner, double outer) {
  const double a = inner * inner;
  const double b = outer * outer;
  return (b * std::log(outer) - a * std::log(inner)) / (b - a) - 0.5;
}

}  // namespace ampstair::grid
