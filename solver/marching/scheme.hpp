// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>

namespace ampstair::marching {

/// A Rosenbrock-W method in the form that needs no product with the Jacobian:
///   P U_i = s Q(u + sum a_ij U_j) + gamma C sum c_ij U_j,   s = gamma h,
///   u_new = u + sum m_i U_i,   error = sum e_i U_i,
///   u(t + theta h) = u + sum_i theta (d_i1 + theta (d_i2 + theta d_i3)) U_i.
/// What changes with time by itself is taken at t + alpha_i h; its derivative, times lead_i h, may
/// be left out like any other part of the Jacobian, but where cells follow it within less than a
/// step the order then falls. Its order holds for any approximation inside P.
struct Scheme {
  static constexpr std::size_t stages = 4;
  using Vector = std::array<double, stages>;
  double gamma;
  Vector alpha;
  Vector lead;  ///< sums of the rows of Gamma, which C is 1 / gamma less the inverse of
  std::array<Vector, stages> a;
  std::array<Vector, stages> c;
  Vector m;
  Vector e;
  std::array<std::array<double, 3>, stages> d;
  int error_order;  ///< order of the embedded solution
};

/// ROS34PW2: order 3, L-stable, stiffly accurate (Rang & Angermann 2005, BIT 45, 761), converted to
/// this form; tests/verification checks its order conditions.
inline constexpr Scheme ros34pw2{
    .gamma = 0.435866521508459,
    .alpha = {0.0, 0.871733043016918, 0.7315799577888524, 1.0},
    .lead = {0.435866521508459, -0.435866521508459, -0.4133333762338865, 0.0},
    .a = {{{},
           {2.0},
           {1.419217317455765, -0.2592322116729697},
           {4.18476048231916, -0.2851920173554959, 2.294280360279042}}},
    .c = {{{},
           {-4.588560720558084},
           {-4.18476048231916, 0.2851920173554959},
           {-6.368179200128358, -6.795620944466837, 2.870098604331056}}},
    .m = {4.18476048231916, -0.2851920173554959, 2.294280360279042, 1.0},
    .e = {0.2777499476479672, -1.403239895175999, 1.772630127667551, 0.5},
    .d = {{{0.8326590231543847, 4.520784200520344, -1.168682741355571},
           {-1.461621337124655, -4.72795432228401, 5.904383642053172},
           {0.0, 9.752939685168169, -7.458659324889133},
           {-2.398120075195581, 5.50195979011212, -2.103839714916539}}},
    .error_order = 2,
};

}  // namespace ampstair::marching
