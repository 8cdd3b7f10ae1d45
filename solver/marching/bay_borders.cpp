// SPDX-License-Identifier: MIT
#include "marching/bay_borders.hpp"

#include <algorithm>

namespace ampstair::marching {

namespace {

Eigen::Index at(std::size_t i) {
  return static_cast<Eigen::Index>(i);
}

/// W/K from a site to a node of its bay.
double slope_to(const BaySite& site, std::size_t node) {
  return node % 2 == 0 ? site.to_air : site.to_walls;
}

}  // namespace

BayBorders::BayBorders(const HeatNetwork& network) : network_(network) {
  const auto& grid = network.grid();
  for (const auto& bay : grid.bays) {
    nodes_.push_back(bay.air_cell);
    nodes_.push_back(bay.walls_cell);
  }
  influence_.assign(nodes_.size(), Cells(grid.cells, 0.0));
  site_of_face_.assign(nodes_.empty() ? 0 : grid.faces.size(), nullptr);
  for (const BaySite& site : network.bay_sites()) {
    site_of_face_[site.face] = &site;
  }
  const auto n = at(nodes_.size());
  schur_.setZero(n, n);
  given_.setZero(n);
  solved_.setZero(n);
}

void BayBorders::reach_faces(double s, std::size_t node) {
  s_ = s;
  Cells& reach = influence_[node];
  std::fill(reach.begin(), reach.end(), 0.0);
  for (const BaySite& site : network_.bay_sites()) {
    if (!site.axial && site.bay == node / 2) {
      reach[site.cell] += s * slope_to(site, node);
    }
  }
}

void BayBorders::factor_schur(double s, std::span<const double> capacity) {
  schur_.setZero();
  for (std::size_t node = 0; node < nodes_.size(); ++node) {
    schur_(at(node), at(node)) = capacity[nodes_[node]] + loss(node);
  }
  for (std::size_t b = 0; b < nodes_.size() / 2; ++b) {
    const double between = s * network_.bay_link(b);
    schur_(at(2 * b), at(2 * b)) += between;
    schur_(at(2 * b + 1), at(2 * b + 1)) += between;
    schur_(at(2 * b), at(2 * b + 1)) -= between;
    schur_(at(2 * b + 1), at(2 * b)) -= between;
  }
  for (const BaySite& site : network_.bay_sites()) {
    if (site.axial) {
      continue;
    }
    for (const std::size_t node : {2 * site.bay, 2 * site.bay + 1}) {
      const double slope = s * slope_to(site, node);
      schur_(at(node), at(node)) += slope;
      for (std::size_t other = 0; other < nodes_.size(); ++other) {
        schur_(at(node), at(other)) -= slope * influence_[other][site.cell];
      }
    }
  }
  lu_.compute(schur_);
}

double BayBorders::loss(std::size_t node) const {
  return node % 2 == 0 ? 0.0 : s_ * network_.grid().bays[node / 2].outer_conductance;
}

void BayBorders::give(std::size_t face, double heat) {
  const BaySite& site = *site_of_face_[face];
  const double both = site.to_air + site.to_walls;
  const double to_air = both > 0.0 ? site.to_air / both : 1.0;
  given_(at(2 * site.bay)) += to_air * heat;
  given_(at(2 * site.bay + 1)) += (1.0 - to_air) * heat;
}

void BayBorders::gather(std::span<const double> x) {
  for (std::size_t node = 0; node < nodes_.size(); ++node) {
    given_(at(node)) += x[nodes_[node]];
  }
  for (const BaySite& site : network_.bay_sites()) {
    if (!site.axial) {
      given_(at(2 * site.bay)) += s_ * site.to_air * x[site.cell];
      given_(at(2 * site.bay + 1)) += s_ * site.to_walls * x[site.cell];
    }
  }
}

std::span<const double> BayBorders::spread(std::span<double> x) {
  solved_.noalias() = lu_.solve(given_);
  for (std::size_t b = 0; b < nodes_.size() / 2; ++b) {
    const double air = solved_(at(2 * b));
    const double walls = solved_(at(2 * b + 1));
    const double* of_air = influence_[2 * b].data();
    const double* of_walls = influence_[2 * b + 1].data();
    for (std::size_t c = 0; c < x.size(); ++c) {
      x[c] += air * of_air[c] + walls * of_walls[c];
    }
  }
  for (std::size_t node = 0; node < nodes_.size(); ++node) {
    x[nodes_[node]] = solved_(at(node));
  }
  return {solved_.data(), nodes_.size()};
}

}  // namespace ampstair::marching
