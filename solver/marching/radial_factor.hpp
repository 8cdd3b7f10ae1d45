// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

#include "marching/kernels.hpp"
#include "marching/network.hpp"
#include "marching/side_borders.hpp"

namespace ampstair::marching {

/// Second factor of a step's operator, C + s K_C: all radial conduction, the conductor's own line,
/// the side bodies, the slopes of the radial faces, minus the slope of the made heat. Its graph is
/// a tree (the comb) apart from the side bodies, which border it: columns are eliminated from
/// outside in, then the conductor's line and the borders, then everything is swept from inside out.
class RadialFactor {
 public:
  explicit RadialFactor(const HeatNetwork& network);

  void factor(double s, std::span<const double> slope);
  /// Solves in place.
  void solve(std::span<double> x) const;

 private:
  void assemble(double s, std::span<const double> slope);
  void eliminate_columns(double s);
  void factor_line(double s);
  void solve_line(double* x) const;
  [[nodiscard]] ReducedRun reduced() const { return {inverse_, lower_}; }

  const HeatNetwork& network_;
  SideBorders borders_;
  Cells inverse_, lower_;
  std::vector<double> line_inverse_, line_lower_;
};

}  // namespace ampstair::marching
