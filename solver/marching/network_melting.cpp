// SPDX-License-Identifier: MIT
// The conductor at and above its melting point.
#include <limits>

#include "heat/melting.hpp"
#include "marching/network.hpp"

namespace ampstair::marching {

double HeatNetwork::melting_begins() const {
  const double point = scenario_.wire.metal->melting_point;
  return point > 0.0 ? point : std::numeric_limits<double>::infinity();
}

double HeatNetwork::melting_ends() const {
  return melting_begins() +
         (scenario_.wire.metal->heat_of_fusion > 0.0 ? heat::melting_width : 0.0);
}

void HeatNetwork::let_conductor_melt() {
  if (may_melt_ || scenario_.wire.metal->heat_of_fusion <= 0.0) {
    return;
  }
  may_melt_ = true;
  const bool varied = media_[0].enthalpy.has_value();
  media_[0].enthalpy.emplace(heat::heat_capacity_with_fusion(*scenario_.wire.metal));
  if (!varied) {  // the conductor's row is the grid's first, so the cells stay in order
    std::vector<std::size_t> cells;
    for (std::size_t j = 0; j < grid_.stations(); ++j) {
      cells.push_back(j);
    }
    enthalpy_cells_.insert(enthalpy_cells_.begin(), cells.begin(), cells.end());
    lay_enthalpy_stretches();
  }
}

}  // namespace ampstair::marching
