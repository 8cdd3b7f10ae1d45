// SPDX-License-Identifier: MIT
// What side bodies and closed bays exchange with the run and inside themselves.
#include <algorithm>

#include "marching/network.hpp"

namespace ampstair::marching {

double HeatNetwork::link_conductance(const grid::Link& link, std::size_t a, std::size_t b) const {
  return conductance(link, conductivity_[a], conductivity_[b]);
}

HeatNetwork::TieSlope HeatNetwork::tie_slope(const grid::SideBody& body,
                                             const grid::SideBody::Tie& tie) const {
  const double link = link_conductance(tie.link, tie.cell, body.first_cell + body.tied);
  const SharedSurface* shared = tie.face == grid::Grid::npos ? nullptr : faces_.shared(tie.face);
  return shared == nullptr ? TieSlope{link, 0.0}
                           : TieSlope{link - shared->tie_slope, shared->head_slope};
}

void HeatNetwork::conduct_bodies(std::span<const double> temperature) {
  std::fill(body_heat_.begin(), body_heat_.end(), 0.0);
  const auto into = [&](std::size_t cell) -> double& {
    return body_heat_[cell - first_body_cell_];
  };
  std::size_t tie_index = 0;
  for (const auto& body : grid_.bodies) {
    for (std::size_t i = 0; i + 1 < body.cells; ++i) {
      const std::size_t cell = body.first_cell + i;
      const double heat = link_conductance(body.chain[i], cell, cell + 1) *
                          (temperature[cell] - temperature[cell + 1]);
      into(cell) -= heat;
      into(cell + 1) += heat;
    }
    const std::size_t head = body.first_cell + body.tied;
    for (const auto& tie : body.ties) {
      const double heat =
          link_conductance(tie.link, tie.cell, head) * (temperature[tie.cell] - temperature[head]);
      tie_heat_[tie_index++] = heat;
      into(head) += heat;
    }
  }
  for (const std::size_t f : body_faces_) {
    into(grid_.faces[f].cell) -= faces_.heat()[f];
  }
  for (const SharedSurface& shared : faces_.shared()) {
    into(shared.head) -= shared.head_heat;
  }
}

/// What bays take from the faces in them, pass on to their walls and lose.
/// @return W lost to the outside
double HeatNetwork::warm_bays(std::span<const double> temperature) {
  double lost = 0.0;
  for (std::size_t b = 0; b < grid_.bays.size(); ++b) {
    const grid::Bay& bay = grid_.bays[b];
    const BayHeat& heat = faces_.bay_heat()[b];
    const double walls = temperature[bay.walls_cell];
    const double inner = bay.inner_conductance * (temperature[bay.air_cell] - walls);
    const double outer = bay.outer_conductance * (walls - faces_.outside(b));
    body_heat_[bay.air_cell - first_body_cell_] += heat.convected - inner;
    body_heat_[bay.walls_cell - first_body_cell_] += heat.radiated + inner - outer;
    lost += outer;
  }
  return lost;
}

}  // namespace ampstair::marching
