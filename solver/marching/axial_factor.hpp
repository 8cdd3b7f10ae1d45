// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "marching/kernels.hpp"
#include "marching/network.hpp"

namespace ampstair::marching {

/// First factor of a step's operator, D + s K_A: every row but the conductor's, along the run, with
/// the slopes of the end faces.
///
/// D is the capacity C, but for gases: they have next to none, so s K_A C^-1 would be huge in their
/// cells and spoil the order of the splitting. Here only, they get D = C + s 0.1 k (pi/w)^2 V (w:
/// width of the gas) and lend their conduction along the run to the rows beside them, which carry
/// its heat away. Column sums of K_A stay zero: the factor conserves energy as before. The figure
/// 0.1 was found by trial; 0.03 to 0.25 serve equally, 0.5 and more are unstable.
class AxialFactor {
 public:
  explicit AxialFactor(const HeatNetwork& network);

  void factor(double s, std::span<const double> slope);
  /// x -> D v in place, where (D + s K_A) v = x; v is told at the cells with axial faces only.
  void solve(std::span<double> x, std::span<double> v) const;

 private:
  /// A gas cell with the cells inside and outside of its layer.
  struct Gas {
    std::size_t cell, inside, outside;
    double stiffening;  // 0.1 (pi / width)^2 V, to be multiplied by the conductivity
  };

  void find_gas();
  void find_gas_at(std::size_t station);
  void assemble(double s, std::span<const double> slope);

  const HeatNetwork& network_;
  std::vector<Gas> gas_;
  std::vector<std::size_t> axial_faces_;
  Cells capacity_, onward_, diagonal_, lower_, inverse_;
  mutable Cells scratch_;
};

}  // namespace ampstair::marching
