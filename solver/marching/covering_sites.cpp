// SPDX-License-Identifier: MIT
#include "marching/covering_sites.hpp"

#include <numeric>

#include "grid/column.hpp"

namespace ampstair::marching {

namespace {

// A covering of 1 mm then lies 0.001 K below a conductor that gives off 60 W/m.
constexpr double conductivity_of_nothing = 1e4;  // W/m/K

}  // namespace

CoveringSites::CoveringSites(const grid::Grid& grid) {
  for (const grid::BareFace& face : grid.bare_faces) {
    Site& site = sites_.emplace_back();
    site.face = face;
    const auto column = grid::column_at(grid, face.station);
    for (std::size_t i = 1; i < column.size(); ++i) {  // the first is the conductor's
      site.cells.push_back(column[i].cell);
    }
  }
  if (!sites_.empty()) {
    stands_for_.resize(grid.faces.size());
    std::iota(stands_for_.begin(), stands_for_.end(), std::size_t{0});
  }
}

void CoveringSites::go(std::size_t site) {
  sites_[site].gone = true;
  gone_.push_back(site);
  stands_for_[sites_[site].face.covered] = sites_[site].face.bare;
}

void CoveringSites::conduct(std::span<double> conductivity) const {
  for (const std::size_t site : gone_) {
    for (const std::size_t cell : sites_[site].cells) {
      conductivity[cell] = conductivity_of_nothing;
    }
  }
}

void CoveringSites::part(std::span<double> onward) const {
  for (const std::size_t site : gone_) {
    const bool first = sites_[site].face.station == 0;
    for (const std::size_t cell : sites_[site].cells) {
      onward[cell] = 0.0;
      if (!first) {
        onward[cell - 1] = 0.0;
      }
    }
  }
}

}  // namespace ampstair::marching
