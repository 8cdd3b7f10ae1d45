// SPDX-License-Identifier: MIT
#pragma once

#include "materials/material.hpp"

namespace ampstair::heat {

/// A narrow ring of still air between two grey surfaces.
struct GapGeometry {
  double inner_radius = 0.0;  ///< m
  double outer_radius = 0.0;  ///< m
  double inner_emissivity = 0.9;
  double outer_emissivity = 0.9;
};

/// The air of a gap as a material whose conductivity carries the radiation too.
///
/// Net radiation between long coaxial grey cylinders is E sigma (T1^4 - T2^4) per area of the inner
/// one, 1/E = 1/e1 + (r1/r2)(1/e2 - 1) (any heat-transfer text). It equals conduction through a
/// ring of conductivity k_r(T) = 4 E sigma T^3 r1 ln(r2/r1), since the integral of k_r over
/// temperature is what drives radial conduction. Free convection in the gap is left out: at the
/// millimetres of a sleeve or tube the Rayleigh number is far below 1000.
materials::Material gap_air(const GapGeometry& gap);

/// Still air between two surfaces of any shape, per metre of their length, as a material whose
/// "conductivity" is a conductance per length,
///   shape k_air(T) + 4 width sigma T^3                                                  [W/m/K].
/// @param shape conduction shape factor per length, 1
/// @param width m: what is radiated is width sigma (T1^4 - T2^4) per length
materials::Material faced_air(double shape, double width);

}  // namespace ampstair::heat
