// SPDX-License-Identifier: MIT
#pragma once

#include "materials/material.hpp"

namespace ampstair::heat {

/// Molar gas constant, J/mol/K (CODATA 2018, exact).
inline constexpr double gas_constant = 8.314462618;

/// A breakdown is followed no faster than this, 1/s: what would take less than a tenth of a second
/// is limited by the heat and the room for gases, not by its chemistry.
inline constexpr double fastest_rate = 10.0;

/// Rate constant of a breakdown, 1/s, after Arrhenius, at most fastest_rate.
double rate_constant(const materials::Breakdown& breakdown, double kelvin);

/// Temperature [K] at which the rate constant has a value [1/s]; infinite where it never has.
double temperature_of_rate(const materials::Breakdown& breakdown, double rate);

}  // namespace ampstair::heat
