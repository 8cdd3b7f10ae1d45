// SPDX-License-Identifier: MIT
#include "verbs/conversions.hpp"

#include <algorithm>
#include <map>

#include "grid/column.hpp"

namespace ampstair::verbs {

Conversions::Conversions(const scenario::Scenario& scenario, const marching::HeatNetwork& network)
    : stations_(network.grid().stations()) {
  const auto& grid = network.grid();
  const auto& reactions = network.reactions();
  std::map<std::size_t, std::size_t> of_cell;
  for (std::size_t k = 0; k < reactions.size(); ++k) {
    of_cell.emplace(reactions.cell(k), k);
  }
  for (const auto& layer : scenario.wire.layers) {
    if (!layer.material->breakdown) {
      continue;
    }
    for (std::size_t j = 0; j < stations_; ++j) {
      const std::size_t first = shares_.size();
      double volume = 0.0;
      for (const auto& c : grid::column_at(grid, j)) {
        if (grid.media[grid.medium[c.cell]].part == layer.part) {
          shares_.push_back({parts_.size(), j, of_cell.at(c.cell), grid.volume[c.cell]});
          volume += grid.volume[c.cell];
        }
      }
      std::for_each(shares_.begin() + static_cast<std::ptrdiff_t>(first), shares_.end(),
                    [&](Share& share) { share.of_mass /= volume; });
    }
    parts_.push_back(layer.part);
  }
}

void Conversions::at(std::span<const double> converted, std::span<std::vector<double>> out) const {
  for (auto& history : out) {
    std::fill(history.begin(), history.end(), 0.0);
  }
  for (const Share& share : shares_) {
    out[share.part][share.station] += share.of_mass * converted[share.reacting];
  }
}

}  // namespace ampstair::verbs
