// SPDX-License-Identifier: MIT
#include "marching/exposed_surfaces.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "heat/exchange.hpp"

namespace ampstair::marching {

namespace {

// As long as the air is the same and no cell has moved by more than this since surfaces were last
// settled, the kernel's rounds of Newton lead from their prediction to round-off.
constexpr double near = 0.5;  // K

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
      scenario_(scenario),
      prevailing_(scenario.surroundings.size()),
      station_(exposed_stations(network.grid())),
      outer_(outer_faces(network.grid(), station_)),
      faces_(outer_, scenario) {
  for (Cells* v : {&temperature_, &conductivity_, &settled_}) {
    v->assign(station_.size(), 0.0);
  }
}

bool ExposedSurfaces::follow_air(double time) {
  bool changes = false;
  for (std::size_t s = 0; s < prevailing_.size(); ++s) {
    const auto now = heat::prevailing_from(scenario_.surroundings[s], time);
    changes = std::exchange(prevailing_[s], now) != now || changes;
  }
  if (changes) {
    faces_.set_surroundings(time);
  }
  faces_.set_time(time);
  return changes || faces_.move();
}

void ExposedSurfaces::at(const Moment& moment, std::span<double> out) {
  const auto& grid = network_.grid();
  // A moment at which the air changes still belongs to the air before.
  const bool air_changes = follow_air(std::nextafter(moment.time, 0.0));
  double furthest = 0.0;
  for (std::size_t k = 0; k < station_.size(); ++k) {
    const std::size_t cell = grid.faces[grid.outer_face[station_[k]]].cell;
    temperature_[k] = moment.temperature[cell];
    furthest = std::max(furthest, std::abs(temperature_[k] - settled_[k]));
    conductivity_[k] = network_.conductivity(cell);
  }
  const bool settle = air_changes || furthest > near;
  faces_.exchange(temperature_, conductivity_, settle);
  if (settle) {
    settled_ = temperature_;
  }
  for (std::size_t k = 0; k < station_.size(); ++k) {
    // What a face gives off has come through its cell.
    out[station_[k]] =
        temperature_[k] - faces_.heat()[k] / (conductivity_[k] * outer_.faces[k].shape);
  }
}

}  // namespace ampstair::marching
