// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "marching/network.hpp"

namespace ampstair::marching {

/// Approximate factorisation of the implicit operator of one step,
///
///   P = (I + s K_A D^-1) (C + s K_C),   s = gamma * step,
///
/// K_A: conduction along the run in every row but the conductor, with the slopes of the end faces;
/// K_C ("comb"): all radial conduction, the conductor's own line, the side bodies, the slopes of
/// the radial faces, minus the slope of the made heat. The comb's graph is a tree apart from the
/// side bodies, which border it by a small dense Schur complement: both factors are solved by
/// tridiagonal sweeps, exactly. D = C, but for nearly massless cells (see comb.cpp).
class Comb {
 public:
  explicit Comb(const HeatNetwork& network);
  ~Comb();
  Comb(const Comb&) = delete;
  Comb& operator=(const Comb&) = delete;

  /// Factors P for the network's linearised state.
  /// @param s gamma times the step, s
  /// @param slope dT/du per cell; the capacity against temperature is C / slope
  void factor(double s, std::span<const double> slope);

  /// Solves P x = rhs in place; x is a change of temperature [K].
  /// @param axial receives the result of the first factor, whose product with the end faces' slopes
  ///        the energy ledger needs
  void solve(std::span<double> rhs_then_x, std::span<double> axial) const;

 private:
  class Axial;
  class Radial;
  std::unique_ptr<Axial> axial_;
  std::unique_ptr<Radial> radial_;
};

}  // namespace ampstair::marching
