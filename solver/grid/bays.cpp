// SPDX-License-Identifier: MIT
#include "grid/bays.hpp"

#include <algorithm>

namespace ampstair::grid {

namespace {

/// A cell that is no part of the run: its capacity stands in its bay.
std::size_t add_node(Grid& grid) {
  grid.medium.push_back(0);
  grid.volume.push_back(0.0);
  ++grid.real_cells;
  return grid.cells++;
}

}  // namespace

void add_bays(const scenario::Scenario& scenario, Grid& grid) {
  for (std::size_t b = 0; b < scenario.bays.size(); ++b) {
    double begin = scenario.length();
    double end = 0.0;
    double length = 0.0;
    std::size_t surroundings = 0;
    for (const auto& piece : scenario.run) {
      if (scenario.surroundings[piece.around].bay == b) {
        begin = std::min(begin, piece.begin);
        end = std::max(end, piece.end());
        length += piece.length;
        surroundings = piece.around;
      }
    }
    const scenario::Bay& per_length = scenario.bays[b];
    Bay bay;
    bay.surroundings = surroundings;
    bay.position = 0.5 * (begin + end);
    bay.air_cell = add_node(grid);
    bay.walls_cell = add_node(grid);
    bay.air_capacity = length * per_length.air_capacity;
    bay.walls_capacity = length * per_length.walls_capacity;
    bay.inner_conductance = length * per_length.inner_conductance;
    bay.outer_conductance = length * per_length.outer_conductance;
    grid.bays.push_back(bay);
  }
}

}  // namespace ampstair::grid
