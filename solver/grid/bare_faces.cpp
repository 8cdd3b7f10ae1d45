// SPDX-License-Identifier: MIT
#include "grid/bare_faces.hpp"

#include <algorithm>
#include <numbers>
#include <variant>

namespace ampstair::grid {

namespace {

// The covering's cells are at the conductor's temperature then: next to nothing lies between.
constexpr double path = 1e-4;

bool is_tied(const Grid& grid, std::size_t cell) {
  const auto holds = [&](const SideBody& body) {
    return std::any_of(body.ties.begin(), body.ties.end(),
                       [&](const SideBody::Tie& tie) { return tie.cell == cell; });
  };
  return std::any_of(grid.bodies.begin(), grid.bodies.end(), holds);
}

}  // namespace

void add_bare_faces(const scenario::Scenario& scenario, Grid& grid) {
  const auto& gone = scenario.wire.covering_gone;
  for (std::size_t j = 0; gone && j < grid.stations(); ++j) {
    const auto& piece = scenario.run[grid.station_piece[j]];
    const std::size_t covered = grid.outer_face[j];
    if (!std::holds_alternative<scenario::Open>(piece.kind) || covered == Grid::npos ||
        is_tied(grid, grid.faces[covered].cell)) {
      continue;
    }
    const double length = grid.station_face[j + 1] - grid.station_face[j];
    Exposure kind = grid.exposures[grid.faces[covered].exposure];
    kind.length = scenario.wire.diameter;
    kind.emissivity = gone->emissivity;
    Face face = grid.faces[covered];
    face.area = std::numbers::pi * scenario.wire.diameter * length;
    face.shape = 2.0 * std::numbers::pi * length / path;
    face.exposure = grid.exposure_index(kind);
    grid.bare_faces.push_back({j, covered, grid.faces.size()});
    grid.faces.push_back(face);
  }
}

}  // namespace ampstair::grid
