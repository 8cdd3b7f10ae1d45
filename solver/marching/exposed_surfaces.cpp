// SPDX-License-Identifier: MIT
#include "marching/exposed_surfaces.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "heat/exchange.hpp"

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

bool shares_surface(const grid::SideBody& body) {
  const auto shares = [](const auto& tie) { return tie.face != grid::Grid::npos; };
  return std::any_of(body.ties.begin(), body.ties.end(), shares);
}

/// Cells behind the outer faces, then the heads that share surfaces with them.
std::vector<std::size_t> cells_beside(const grid::Grid& grid,
                                      const std::vector<std::size_t>& stations) {
  std::vector<std::size_t> cells;
  for (const std::size_t j : stations) {
    cells.push_back(grid.faces[grid.outer_face[j]].cell);
  }
  for (const grid::SideBody& body : grid.bodies) {
    if (shares_surface(body)) {
      cells.push_back(body.first_cell + body.tied);
    }
  }
  for (const grid::Bay& bay : grid.bays) {
    cells.push_back(bay.air_cell);
    cells.push_back(bay.walls_cell);
  }
  return cells;
}

/// Outer faces and these cells alone, in their order.
grid::Grid outer_faces(const grid::Grid& grid, const std::vector<std::size_t>& stations) {
  grid::Grid outer;
  outer.exposures = grid.exposures;
  std::vector<std::size_t> place(grid.stations(), grid::Grid::npos);
  for (const std::size_t j : stations) {
    place[j] = outer.faces.size();
    outer.faces.push_back(grid.faces[grid.outer_face[j]]);
    outer.faces.back().cell = place[j];
  }
  outer.cells = outer.faces.size();
  for (const grid::SideBody& body : grid.bodies) {
    if (!shares_surface(body)) {
      continue;
    }
    grid::SideBody& head = outer.bodies.emplace_back();
    head.first_cell = outer.cells++;
    for (const auto& tie : body.ties) {
      const std::size_t at = place[tie.station];
      head.ties.push_back({at, tie.station, tie.link, at});
    }
  }
  for (const grid::Bay& bay : grid.bays) {
    grid::Bay& here = outer.bays.emplace_back(bay);
    here.air_cell = outer.cells++;
    here.walls_cell = outer.cells++;
  }
  return outer;
}

}  // namespace

ExposedSurfaces::ExposedSurfaces(const HeatNetwork& network, const scenario::Scenario& scenario)
    : network_(network),
      scenario_(scenario),
      prevailing_(scenario.surroundings.size()),
      station_(exposed_stations(network.grid())),
      cell_(cells_beside(network.grid(), station_)),
      outer_(outer_faces(network.grid(), station_)),
      faces_(outer_, scenario) {
  for (Cells* v : {&temperature_, &conductivity_}) {
    v->assign(cell_.size(), 0.0);
  }
  surface_.assign(outer_.faces.size(), 0.0);
}

void ExposedSurfaces::follow_air(double time) {
  bool changes = false;
  for (std::size_t s = 0; s < prevailing_.size(); ++s) {
    const auto now = heat::prevailing_from(scenario_.surroundings[s], time);
    changes = std::exchange(prevailing_[s], now) != now || changes;
  }
  if (changes) {
    faces_.set_surroundings(time);
  }
  faces_.set_time(time);
}

void ExposedSurfaces::at(const Moment& moment, std::span<double> out) {
  // A moment at which the air changes still belongs to the air before.
  follow_air(std::nextafter(moment.time, 0.0));
  for (std::size_t k = 0; k < cell_.size(); ++k) {
    temperature_[k] = moment.temperature[cell_[k]];
    conductivity_[k] = network_.conductivity(cell_[k]);
  }
  faces_.surfaces(temperature_, conductivity_, surface_);
  for (std::size_t k = 0; k < station_.size(); ++k) {
    out[station_[k]] = surface_[k];
  }
}

}  // namespace ampstair::marching
