// SPDX-License-Identifier: MIT
// Which cells a view reads.
#include <algorithm>
#include <numeric>

#include "marching/view.hpp"

namespace ampstair::marching {

void View::add_cells_of_surfaces(std::vector<std::size_t>& cells) const {
  for (std::size_t j = 0; j < columns_.size(); ++j) {
    cells.push_back(cells_[columns_[j].last]);
    if (tie_head_[j] != grid::Grid::npos) {
      cells.push_back(tie_head_[j]);
    }
  }
  for (const auto& bay : network_.grid().bays) {  // what surfaces in it have before them
    cells.push_back(bay.air_cell);
    cells.push_back(bay.walls_cell);
  }
}

void View::add_cells_of_part(std::size_t index, std::vector<std::size_t>& cells) const {
  for (const Spot& spot : spots_[index]) {
    if (spot.of_body) {
      cells.push_back(spot.cell);
      if (spot.towards_previous) {
        cells.push_back(spot.cell - 1);
      }
      continue;
    }
    for (std::size_t i = spot.first - 1; i <= spot.last; ++i) {
      cells.push_back(cells_[i]);
    }
  }
}

void View::add_cells_of_columns(double position, std::vector<std::size_t>& cells) const {
  const auto [before, next] = stations_beside(position);
  for (const std::size_t station : {before, next}) {
    for (std::size_t i = columns_[station].first; i <= columns_[station].last; ++i) {
      cells.push_back(cells_[i]);
    }
  }
}

std::vector<Stretch> View::cells_read() const {
  const auto& grid = network_.grid();
  std::vector<std::size_t> cells(grid.stations());
  std::iota(cells.begin(), cells.end(), std::size_t{0});
  for (const auto& body : grid.bodies) {
    for (std::size_t i = 0; i < body.cells; ++i) {
      cells.push_back(body.first_cell + i);
    }
  }
  for (const auto& bay : grid.bays) {
    cells.push_back(bay.air_cell);
    cells.push_back(bay.walls_cell);
  }
  add_cells_of_surfaces(cells);
  for (std::size_t p = 0; p < parts_.size(); ++p) {
    add_cells_of_part(p, cells);
  }
  for (const auto& probe : scenario_.probes) {
    if (probe.of == scenario::Probe::Of::radius) {  // the others see what stands above
      add_cells_of_columns(probe.position, cells);
    }
  }
  std::sort(cells.begin(), cells.end());
  std::vector<Stretch> stretches;
  for (const std::size_t cell : cells) {
    constexpr std::size_t gap = 16;  // narrower ones are not worth leaving out
    if (stretches.empty() || cell > stretches.back().first + stretches.back().count + gap) {
      stretches.push_back({cell, 0});
    }
    stretches.back().count = cell - stretches.back().first + 1;
  }
  return stretches;
}

}  // namespace ampstair::marching
