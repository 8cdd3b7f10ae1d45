// SPDX-License-Identifier: MIT
#include "marching/exposed_surfaces.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace ampstair::marching {

namespace {

std::vector<std::size_t> exposed_stations(const grid::Grid& grid) {
  std::vector<std::size_t> stations;
  for (std::size_t j = 0; j < grid.stations(); ++j) {
    if (grid.outer_face[j] != grid::Grid::npos) {
      stations.push_back(j);
    }
  }
  return stations;
}

grid::Grid outer_faces(const grid::Grid& grid, const std::vector<std::size_t>& stations) {
  grid::Grid outer;
  outer.exposures = grid.exposures;
  for (const std::size_t j : stations) {
    outer.faces.push_back(grid.faces[grid.outer_face[j]]);
    outer.faces.back().cell = outer.faces.size() - 1;
  }
  return outer;
}

}  // namespace

ExposedSurfaces::ExposedSurfaces(const HeatNetwork& network, const scenario::Scenario& scenario)
    : network_(network),
      station_(exposed_stations(network.grid())),
      outer_(outer_faces(network.grid(), station_)),
      faces_(outer_, scenario) {
  for (Cells* v : {&temperature_, &conductivity_}) {
    v->assign(station_.size(), 0.0);
  }
}

void ExposedSurfaces::at(const Moment& moment, std::span<double> out) {
  const auto& grid = network_.grid();
  // A moment at which the air changes still belongs to the air before.
  faces_.set_surroundings(std::nextafter(moment.time, 0.0));
  for (std::size_t k = 0; k < station_.size(); ++k) {
    const std::size_t cell = grid.faces[grid.outer_face[station_[k]]].cell;
    temperature_[k] = moment.temperature[cell];
    conductivity_[k] = network_.conductivity(cell);
  }
  faces_.exchange(temperature_, conductivity_, true);
  for (std::size_t k = 0; k < station_.size(); ++k) {
    // What a face gives off has come through its cell.
    out[station_[k]] =
        temperature_[k] - faces_.heat()[k] / (conductivity_[k] * outer_.faces[k].shape);
  }
}

}  // namespace ampstair::marching
