// SPDX-License-Identifier: MIT
// Which faces there are, and what stands together.
#include <algorithm>

#include "marching/faces.hpp"

namespace ampstair::marching {

Faces::Faces(const grid::Grid& grid, const scenario::Scenario& scenario)
    : grid_(grid), scenario_(scenario) {
  slope_.assign(grid.faces.size(), 0.0);
  heat_.assign(grid.faces.size(), 0.0);
  guess_.assign(grid.faces.size(), scenario.start_temperature);
  groups_.resize(grid.exposures.size());
  list_shared();
  for (std::size_t f = 0; f < grid.faces.size(); ++f) {
    const grid::Face& face = grid.faces[f];
    Group& group = groups_[face.exposure];
    if (shared_at_[f] != grid::Grid::npos) {
      group.shared.push_back({group.face.size(), shared_at_[f]});
    }
    group.face.push_back(f);
    group.cell.push_back(face.cell);
    group.area.push_back(face.area);
    group.shape_per_area.push_back(face.shape / face.area);
  }
  for (std::size_t e = 0; e < groups_.size(); ++e) {
    Group& group = groups_[e];
    group.exposure = e;
    list_strips(group);
    for (Cells* v : {&group.guess, &group.guess_cell}) {
      v->assign(group.face.size(), scenario.start_temperature);
    }
    for (Cells* v : {&group.temperature, &group.conductance, &group.guess_slope, &group.surface,
                     &group.flux, &group.slope}) {
      v->assign(group.face.size(), 0.0);
    }
  }
  for (const grid::BareFace& place : grid.bare_faces) {
    set_area(place.bare, 0.0);
  }
  list_bay_sites();
  set_surroundings(0.0);
}

/// Faces that can be taken in one loop.
void Faces::list_strips(Group& group) {
  for (std::size_t i = 0; i < group.face.size(); ++i) {
    if (!group.strips.empty() && group.face[i - 1] + 1 == group.face[i] &&
        group.cell[i - 1] < group.cell[i]) {
      Strip& last = group.strips.back();
      const std::size_t step = group.cell[i] - group.cell[i - 1];
      if (last.count == 1 || last.step == step) {
        last.step = step;
        ++last.count;
        continue;
      }
    }
    group.strips.push_back({i, group.face[i], group.cell[i], 1, 1});
  }
}

/// A face without area gives off nothing.
void Faces::set_area(std::size_t face, double area) {
  Group& group = groups_[grid_.faces[face].exposure];
  const auto at = std::find(group.face.begin(), group.face.end(), face);
  group.area[static_cast<std::size_t>(at - group.face.begin())] = area;
}

void Faces::lay_bare(const grid::BareFace& place, std::span<const std::size_t> cells) {
  for (std::size_t f = 0; f < grid_.faces.size(); ++f) {
    if (std::find(cells.begin(), cells.end(), grid_.faces[f].cell) != cells.end()) {
      set_area(f, f == place.bare ? grid_.faces[f].area : 0.0);
    }
  }
}

void Faces::list_bay_sites() {
  bay_heat_.resize(grid_.bays.size());
  for (Group& group : groups_) {
    for (std::size_t b = 0; b < grid_.bays.size(); ++b) {
      const auto& exposure = grid_.exposures[group.exposure];
      if (exposure.to == grid::Exposure::To::air &&
          exposure.surroundings == grid_.bays[b].surroundings) {
        group.bay = b;
      }
    }
    if (group.bay == grid::Grid::npos) {
      continue;
    }
    for (const std::size_t f : group.face) {
      group.site.push_back(bay_sites_.size());
      bay_sites_.push_back({group.bay, f, grid_.faces[f].cell, grid_.faces[f].axial});
      if (const SharedSurface* shared = this->shared(f)) {
        bay_sites_.push_back({group.bay, f, shared->head, false});
      }
    }
  }
}

void Faces::list_shared() {
  shared_at_.assign(grid_.faces.size(), grid::Grid::npos);
  for (const auto& body : grid_.bodies) {
    for (const auto& tie : body.ties) {
      if (tie.face != grid::Grid::npos) {
        shared_at_[tie.face] = shared_.size();
        shared_.push_back({tie.face, tie.cell, body.first_cell + body.tied, tie.link});
      }
    }
  }
}

}  // namespace ampstair::marching
