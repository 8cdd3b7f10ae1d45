// SPDX-License-Identifier: MIT
#include "verbs/temperatures.hpp"

#include <algorithm>
#include <cmath>

namespace ampstair::verbs {

namespace {

using grid::Grid;

/// Which stretch of one piece and one outline each station lies in.
std::vector<std::size_t> sides(const Grid& grid) {
  const auto radius = [&](std::size_t j) { return grid.patches[grid.top_patch[j]].radius.back(); };
  constexpr double same = 1e-9;  // m
  std::vector<std::size_t> side(grid.stations(), 0);
  for (std::size_t j = 1; j < side.size(); ++j) {
    const bool goes_on = grid.station_piece[j] == grid.station_piece[j - 1] &&
                         std::abs(radius(j) - radius(j - 1)) < same;
    side[j] = side[j - 1] + (goes_on ? 0 : 1);
  }
  return side;
}

std::size_t station_at(const Grid& grid, double position) {
  const auto& centre = grid.station_centre;
  const auto found = std::lower_bound(centre.begin(), centre.end(), position);
  return std::min(static_cast<std::size_t>(found - centre.begin()), centre.size() - 1);
}

}  // namespace

Temperatures::Temperatures(const scenario::Scenario& scenario, const marching::HeatNetwork& network,
                           marching::View& view)
    : view_(view), probes_(!scenario.probes.empty()), reads_(view.cells_read()) {
  const Grid& grid = network.grid();
  const auto side = sides(grid);
  auto& conductor = places_.emplace_back();
  for (const double position : grid.station_centre) {
    conductor.push_back({position, 0});  // the metal goes on, whatever lies round it
  }
  auto& surface = places_.emplace_back();
  for (std::size_t j = 0; j < side.size(); ++j) {
    surface.push_back({grid.station_centre[j], side[j]});
  }
  for (const auto& part : view.parts()) {
    auto& spots = places_.emplace_back();
    for (std::size_t k = 0; k < part.position.size(); ++k) {
      const bool round_the_wire = part.side_body[k] == Grid::npos;
      spots.push_back({part.position[k], round_the_wire ? side[station_at(grid, part.position[k])]
                                                        : side.back() + 1 + part.side_body[k]});
    }
  }
  if (probes_) {
    auto& probes = places_.emplace_back();
    for (const auto& probe : scenario.probes) {
      probes.push_back({probe.position, probes.size()});
    }
  }
}

void Temperatures::at(const marching::Moment& moment, std::span<std::vector<double>> out) {
  std::size_t k = 0;
  std::copy_n(moment.temperature.begin(), out[k].size(), out[k].begin());
  view_.surfaces(moment, out[++k]);
  for (std::size_t part = 0; part < view_.parts().size(); ++part) {
    view_.part(part, moment.temperature, out[++k]);
  }
  if (probes_) {
    view_.probes(moment, out[++k]);
  }
}

}  // namespace ampstair::verbs
