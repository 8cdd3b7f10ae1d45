// SPDX-License-Identifier: MIT
#pragma once

#include <memory>

#include "marching/march.hpp"
#include "marching/network.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::tests {

/// An independent march of the very same semi-discrete heat balance: SUNDIALS CVODE (backward
/// differentiation of orders 1 to 5, modified Newton, Jacobian assembled from the network's
/// conductances and slopes, a direct linear solver). Restarted at every step of the staircase and
/// at every change of the surroundings; outputs between its steps come from its own interpolant.
/// Keeps no ledger and knows no melting, no levels that move and no rules: the scenario has to do
/// without them.
class CvodeMarch {
 public:
  enum class Solver {
    klu,    ///< sparse, ordered by approximate minimum degree
    banded  ///< in the narrowest order known, see unknowns_in_band()
  };
  /// Error weights of one cell: relative * rise over the start + absolute [K]; CVODE holds the root
  /// mean square of its estimated error over the cells to them.
  struct Tolerance {
    double relative = 0.0;
    double absolute = 1e-3;  ///< K
  };
  /// CVODE's own knobs, at CVODE's own defaults.
  struct Tuning {
    int largest_order = 5;
    long steps_between_factors = 20;
    long steps_between_jacobians = 51;
    double newton_tolerance = 0.1;  ///< as a part of the step's tolerance
  };
  struct Count {
    long steps = 0;
    long rejected = 0;
    long rates = 0;
    long factors = 0;
    long jacobians = 0;
    long newton_failures = 0;
  };

  CvodeMarch(const scenario::Scenario& scenario, marching::HeatNetwork& network, Solver solver);
  ~CvodeMarch();
  CvodeMarch(const CvodeMarch&) = delete;
  CvodeMarch& operator=(const CvodeMarch&) = delete;

  /// Marches from the start through the staircase. May be called again: a later march profits from
  /// the analysis of the matrix made in the first.
  /// @param observer is told the moments marching::march() tells, with no ledger; advanced() after
  ///        each of them
  /// @throws std::runtime_error when CVODE gives up
  Count march(const Tolerance& tolerance, marching::Observer& observer, const Tuning& tuning);
  Count march(const Tolerance& tolerance, marching::Observer& observer);

  [[nodiscard]] std::size_t half_bandwidth() const;

 private:
  class Integration;
  std::unique_ptr<Integration> integration_;
};

}  // namespace ampstair::tests
