// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "marching/network.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::verbs {

/// The share of every covering layer that has broken down, along the run: one history a layer whose
/// material says how it breaks down.
class Conversions {
 public:
  Conversions(const scenario::Scenario& scenario, const marching::HeatNetwork& network);

  /// Names of the layers, in the order of the histories.
  [[nodiscard]] const std::vector<std::string>& parts() const { return parts_; }
  [[nodiscard]] std::size_t stations() const { return stations_; }
  /// Shares by mass over the layer's thickness.
  /// @param converted of every reacting cell (marching::Moment)
  /// @param out one vector a layer with one value a station
  void at(std::span<const double> converted, std::span<std::vector<double>> out) const;

 private:
  struct Share {
    std::size_t part, station, reacting;
    double of_mass;
  };
  std::vector<std::string> parts_;
  std::vector<Share> shares_;
  std::size_t stations_;
};

}  // namespace ampstair::verbs
