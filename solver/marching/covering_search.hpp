// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "marching/network.hpp"
#include "marching/stepper.hpp"

namespace ampstair::marching {

/// Tells how near the covering of open pieces is to being gone (scenario::CoveringGone), inside a
/// time step; the network's time has to be that of the part of it that is asked for.
class CoveringSearch {
 public:
  CoveringSearch(const scenario::Scenario& scenario, const HeatNetwork& network,
                 const Stepper& stepper);

  /// Whether there is a covering left that may go.
  [[nodiscard]] bool idle() const { return network_.covering().all_gone(); }
  /// How far the place nearest to it is beyond its limit, in K or as much as counts like it; below
  /// 0 before.
  [[nodiscard]] double beyond(double theta);
  /// Sites that go together at a part of the step: those at the limit and, so that a front along
  /// the run is not cut into more time steps than it is worth, those next to it.
  [[nodiscard]] const std::vector<std::size_t>& going(double theta);
  /// Of the sites found last: the station of the one that is the farthest beyond the limit, and
  /// the temperature [K] of its covering where that is coldest.
  [[nodiscard]] std::size_t station() const {
    return network_.covering().sites()[first_].face.station;
  }
  [[nodiscard]] double temperature() const { return surface(first_); }

 private:
  void read(double theta);
  [[nodiscard]] double beyond_at(std::size_t site) const;
  /// K, of the covering's outside.
  [[nodiscard]] double surface(std::size_t site) const {
    return network_.surface(network_.covering().sites()[site].face.covered, temperature_);
  }

  const scenario::Scenario& scenario_;
  const HeatNetwork& network_;
  const Stepper& stepper_;
  std::vector<std::vector<std::size_t>> reacting_;  // per site: indices into reactions()
  std::vector<std::size_t> cells_;                  // behind and before the surfaces
  std::vector<double> temperature_;                 // K per cell of the grid, at cells_ only
  std::vector<double> converted_;
  std::vector<std::size_t> going_;
  std::size_t first_ = 0;
};

}  // namespace ampstair::marching
