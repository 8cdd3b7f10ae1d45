// SPDX-License-Identifier: MIT
// A covering that burns off or falls away.
#include <algorithm>

#include "marching/network.hpp"

namespace ampstair::marching {

bool HeatNetwork::may_go(const grid::Medium& medium) const {
  return !covering_.empty() &&
         std::any_of(scenario_.wire.layers.begin(), scenario_.wire.layers.end(),
                     [&](const auto& layer) { return layer.part == medium.part; });
}

void HeatNetwork::lose_covering(std::size_t site) {
  const CoveringSites::Site& lost = covering_.sites()[site];
  covering_.go(site);
  faces_.lay_bare(lost.face, lost.cells);
  for (const std::size_t cell : lost.cells) {
    capacity_[cell] = CoveringSites::heat_per_volume * grid_.volume[cell];
    massless_[cell] = true;
    reactions_.leave(cell);
  }
  covering_.conduct(conductivity_);
}

}  // namespace ampstair::marching
