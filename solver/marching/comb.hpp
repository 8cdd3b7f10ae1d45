// SPDX-License-Identifier: MIT
#pragma once

#include <span>

#include "marching/axial_factor.hpp"
#include "marching/radial_factor.hpp"

namespace ampstair::marching {

/// Approximate factorisation of the implicit operator of one step,
///
///   P = (I + s K_A D^-1) (C + s K_C),   s = gamma * step,
///
/// K_A: conduction along the run outside the conductor (AxialFactor); K_C: all the rest, the "comb"
/// (RadialFactor). Each is solved exactly by tridiagonal sweeps; each exposed face's slope stands
/// in the factor of its own direction.
class Comb {
 public:
  explicit Comb(const HeatNetwork& network) : axial_(network), radial_(network) {}

  /// Factors P for the network's linearised state.
  /// @param s gamma times the step, s
  /// @param slope dT/du per cell; the capacity against temperature is C / slope
  void factor(double s, std::span<const double> slope) {
    axial_.factor(s, slope);
    radial_.factor(s, slope);
  }

  /// Solves P x = rhs in place; x is a change of temperature [K].
  /// @param axial receives, at the cells with axial faces, what the first factor alone gives: the
  ///        energy ledger books those faces' loss by it
  void solve(std::span<double> rhs_then_x, std::span<double> axial) const {
    axial_.solve(rhs_then_x, axial);
    radial_.solve(rhs_then_x);
  }

 private:
  AxialFactor axial_;
  RadialFactor radial_;
};

}  // namespace ampstair::marching
