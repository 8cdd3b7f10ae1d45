// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "marching/comb.hpp"
#include "observed_order.hpp"
#include "scenarios.hpp"

namespace ampstair::tests {

/// The time scheme without its step control: every stretch of a scenario between two changes (of
/// the staircase or of the surroundings) is marched through its first part with many short steps,
/// then with even ones. What a jump excites within milliseconds is over by then; the order of a
/// scheme for stiff problems is that of a smooth solution.
struct EvenSteps {
  double settling = 0.1;     ///< part of each stretch gone through with the short steps
  int settling_steps = 400;  ///< each longer than the one before by 3 %
  std::optional<marching::Comb::Corners> corners = {};  ///< treated so always, not as steps ask for

  /// Temperatures [K] of all cells at the end of the staircase.
  /// @param count of even steps in each stretch
  [[nodiscard]] std::vector<double> march(const scenario::Scenario& scenario,
                                          const grid::Grid& grid, int count) const;
  /// Halves the even steps from `count` to a stretch.
  /// @param halvings how often
  struct Study {
    Convergence conductor;  ///< all its stations
    Convergence anywhere;   ///< all cells
  };
  [[nodiscard]] Study halve(const scenario::Scenario& scenario, int count, int halvings) const;
};

}  // namespace ampstair::tests
