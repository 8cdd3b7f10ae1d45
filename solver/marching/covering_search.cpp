// SPDX-License-Identifier: MIT
#include "marching/covering_search.hpp"

#include <algorithm>
#include <limits>

namespace ampstair::marching {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double together = 0.5;           // K
constexpr double kelvin_per_part = 100.0;  // what all of a covering's breakdown counts for

}  // namespace

CoveringSearch::CoveringSearch(const scenario::Scenario& scenario, const HeatNetwork& network,
                               const Stepper& stepper)
    : scenario_(scenario), network_(network), stepper_(stepper) {
  const auto& sites = network.covering().sites();
  if (sites.empty()) {
    return;
  }
  std::vector<std::size_t> reacting_at(network.grid().cells, grid::Grid::npos);
  for (std::size_t k = 0; k < network.reactions().size(); ++k) {
    reacting_at[network.reactions().cell(k)] = k;
  }
  for (std::size_t i = 0; i < sites.size(); ++i) {
    cells_.push_back(sites[i].cells.back());
    auto& reacting = reacting_.emplace_back();
    for (const std::size_t cell : sites[i].cells) {
      if (reacting_at[cell] != grid::Grid::npos) {
        reacting.push_back(reacting_at[cell]);
      }
    }
  }
  for (const auto& bay : network.grid().bays) {
    cells_.push_back(bay.air_cell);
    cells_.push_back(bay.walls_cell);
  }
  temperature_.assign(network.grid().cells, 0.0);
  converted_.assign(network.reactions().size(), 0.0);
}

void CoveringSearch::read(double theta) {
  stepper_.temperatures_at(theta, cells_, temperature_);
  if (scenario_.wire.covering_gone->broken_down) {
    stepper_.converted_at(theta, converted_);
  }
}

double CoveringSearch::beyond_at(std::size_t site) const {
  if (network_.covering().sites()[site].gone) {
    return -infinity;
  }
  const auto& gone = *scenario_.wire.covering_gone;
  double beyond = gone.above ? surface(site) - *gone.above : -infinity;
  if (gone.broken_down) {
    double least = 1.0;
    for (const std::size_t k : reacting_[site]) {
      least = std::min(least, converted_[k]);
    }
    beyond = std::max(beyond, kelvin_per_part * (least - *gone.broken_down));
  }
  return beyond;
}

double CoveringSearch::beyond(double theta) {
  read(theta);
  double most = -infinity;
  for (std::size_t site = 0; site < reacting_.size(); ++site) {
    most = std::max(most, beyond_at(site));
  }
  return most;
}

const std::vector<std::size_t>& CoveringSearch::going(double theta) {
  const double most = beyond(theta);
  going_.clear();
  for (std::size_t site = 0; site < reacting_.size(); ++site) {
    const double here = beyond_at(site);
    if (here == most) {
      first_ = site;
    }
    if (here > -together) {
      going_.push_back(site);
    }
  }
  return going_;
}

}  // namespace ampstair::marching
