// SPDX-License-Identifier: MIT
#pragma once

// Published correlations of convection, each with the range it is stated for. They go on beyond it:
// whoever reports a result tells when it was left.

namespace ampstair::heat {

/// Where a correlation holds, both ends included.
struct Range {
  double low = 0.0;
  double high = 0.0;
};

/// Free convection from a long horizontal cylinder: mean Nusselt number over the diameter.
/// Churchill & Chu 1975, Int. J. Heat Mass Transfer 18, 1049 (form from memory).
double nusselt_free_cylinder(double rayleigh, double prandtl);
/// Ra over the diameter: 1e-5 recommended by the authors, 1e12 by textbooks (both seen
/// second-hand).
inline constexpr Range free_cylinder_rayleigh{1e-5, 1e12};

/// The same after Morgan 1975, Adv. Heat Transfer 11, 199: C Ra^n in bands that meet at Ra = 1e-2,
/// 1e2, 1e4 and 1e7 with jumps of 0.2, 0.2, 0.1 and 0.8 %, as published (seen second-hand).
double nusselt_free_cylinder_morgan(double rayleigh);
inline constexpr Range morgan_rayleigh{1e-10, 1e12};

/// Free convection from a vertical plate: mean Nusselt number over the height.
/// Churchill & Chu 1975, Int. J. Heat Mass Transfer 18, 1323 (form from memory).
double nusselt_free_plate(double rayleigh, double prandtl);
/// Ra over the height.
inline constexpr Range free_plate_rayleigh{0.0, 1e12};

/// By how much a vertical cylinder exceeds a plate of its height, whose boundary layer is as thick
/// as it: 1 + B xi^C with xi = 32^(1/2) Gr^(-1/4) height / diameter. Popiel, Wojtkowiak & Bober
/// 2007, Exp. Therm. Fluid Sci. 32, 607, fitted to the laminar solution of Cebeci 1974 (seen
/// second-hand).
/// @param grashof over the height; positive
double slender_cylinder_excess(double grashof, double prandtl, double height_per_diameter);
/// xi of Cebeci's solution (from memory, moderately sure); a boundary layer thinner than this tells
/// nothing apart.
inline constexpr Range slender_cylinder_curvature{0.0, 5.0};
/// Ra over the height: beyond it the boundary layer turns turbulent, where nobody has fitted it.
inline constexpr Range slender_cylinder_rayleigh{0.0, 1e9};
/// xi itself.
double slender_cylinder_curvature_at(double grashof, double height_per_diameter);

/// Flow across a long cylinder: mean Nusselt number over the diameter.
/// Churchill & Bernstein 1977, J. Heat Transfer 99, 300 (form seen).
double nusselt_crossflow_cylinder(double reynolds, double prandtl);
/// Re Pr.
inline constexpr Range crossflow_peclet{0.2, 1e7};

}  // namespace ampstair::heat
