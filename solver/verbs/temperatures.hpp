// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "marching/march.hpp"
#include "marching/view.hpp"

namespace ampstair::verbs {

/// Where a temperature of a history is taken.
struct Place {
  double position = 0.0;  ///< m along the run
  /// Places of one side lie on one smooth curve; between two sides the outline has a step, or a
  /// body stands beside the wire. A side has the same number on every grid of a scenario.
  std::size_t side = 0;
};

/// The temperatures a record keeps of a moment: of the conductor, of the surface, of every part of
/// the view, of the probes if there are any; one history each, in this order.
class Temperatures {
 public:
  Temperatures(const scenario::Scenario& scenario, const marching::HeatNetwork& network,
               marching::View& view);

  /// Per history, one per value of it.
  [[nodiscard]] const std::vector<std::vector<Place>>& places() const { return places_; }
  /// Cells of the grid that at() reads.
  [[nodiscard]] const std::vector<marching::Stretch>& reads() const { return reads_; }
  /// K; `out` has one vector per history with one value per place.
  void at(const marching::Moment& moment, std::span<std::vector<double>> out);

 private:
  marching::View& view_;
  bool probes_;
  std::vector<marching::Stretch> reads_;
  std::vector<std::vector<Place>> places_;
};

}  // namespace ampstair::verbs
