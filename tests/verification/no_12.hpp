// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>

#include "scenarios.hpp"

namespace ampstair::tests {

/// The wire of the reference figures: No. 12 copper (2.0525 mm, 5.211 mohm/m at 20 degC, 390
/// W/m/K), rubber 1.19 mm of 0.15 W/m/K and 1150 x 1700 J/m3/K, braid 0.50 mm of 0.07 W/m/K and 600
/// x 1350, emissivity 0.90; air and walls 11 degC. The figures come from a small independent model
/// (Churchill-Chu, grey radiation, lumped supports): reference figures, not measurements.
inline constexpr double no_12_diameter = 2.0525e-3;  ///< m
inline constexpr double no_12_area = 3.3087e-6;      ///< m2
inline constexpr double no_12_ohm = 5.211e-3;        ///< ohm/m at 20 degC
inline constexpr double barn_air = 11.0;             ///< degC

inline scenario::Wire no_12_bare(double emissivity) {
  return {metal(390.0, 8890.0, 385.0, 1.7241e-8, 0.00393, emissivity), no_12_diameter, {}};
}

inline scenario::Wire no_12(double coefficient = 0.00393, double emissivity = 0.9) {
  return {metal(390.0, 8890.0, 385.0, 1.7241e-8, coefficient),
          no_12_diameter,
          {{"rubber", solid("rubber", 0.15, 1150.0, 1700.0, emissivity), 1.19e-3},
           {"braid", solid("braid", 0.07, 600.0, 1350.0, emissivity), 0.5e-3}}};
}

/// Film that makes the conductor of a covered No. 12 lose so many W/m/K.
inline scenario::Surroundings loses(double conductance) {
  constexpr double pi = std::numbers::pi;
  const double layers = std::log(2.21625 / 1.02625) / (2.0 * pi * 0.15) +
                        std::log(2.71625 / 2.21625) / (2.0 * pi * 0.07);
  return film(1.0 / ((1.0 / conductance - layers) * 2.0 * pi * 2.71625e-3), 0.0, barn_air);
}

/// Steady conductor and surface [degC] of a long wire at a current.
struct Steady {
  double conductor, surface;
};
inline Steady steady(const scenario::Wire& wire, const scenario::Surroundings& around,
                     double ampere) {
  auto rig = long_wire(wire, around);
  rig.hold(ampere, 4e5);
  rig.sheet.output.every = 4e5;
  const auto marched = run(rig.sheet);
  return {marched.last_celsius(0), marched.last_celsius(1)};
}

/// The stated tolerance of the reference figures: 2 K or 4 % of the rise, the larger.
inline double stated_tolerance(double celsius) {
  return std::max(2.0, 0.04 * (celsius - barn_air));
}

}  // namespace ampstair::tests
