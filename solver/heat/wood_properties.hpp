// SPDX-License-Identifier: MIT
#pragma once

#include "materials/material.hpp"

namespace ampstair::heat {

// Moisture is kg of water per kg of oven-dry wood throughout: 0.12 for 12 %.

/// Water in wood begins to boil off and is gone, K: 99 and 120 degC, the ends of the peak in EN
/// 1995-1-2 table B.2 (from memory, very sure).
inline constexpr double drying_begins = 372.15;
inline constexpr double drying_ends = 393.15;
/// Dry wood begins to break down and has become char, K: 200 and 350 degC, the ends of the fall of
/// its conductivity in EN 1995-1-2 table B.1 (from memory, very sure).
inline constexpr double charring_begins = 473.15;
inline constexpr double charring_ends = 623.15;
/// The char line, K: 300 degC, EN 1995-1-2 3.4.1 (from memory, very sure).
inline constexpr double char_line = 573.15;
/// Heat of evaporation of water at 100 degC, J/kg (steam tables, from memory, very sure).
inline constexpr double heat_of_evaporation = 2257e3;

/// Conductivity across the grain at 24 degC, W/m/K: G (B + C M) + A, Wood Handbook eq. 4-15 (seen);
/// for G above 0.3 and moisture below 25 %.
/// @param specific_gravity G: oven-dry mass per volume at this moisture, over 1000 kg/m3
double conductivity_at_24(double specific_gravity, double moisture);
/// Heat capacity of oven-dry wood, J/kg/K, Wood Handbook eq. 4-16a (seen); from 280 to 420 K.
double dry_heat_capacity(double kelvin);
/// What the bond of wood and water adds to the heat capacity, J/K per kg of moist wood: Wood
/// Handbook eq. 4-18 (seen); below 26 % moisture.
double heat_capacity_of_bond(double moisture, double kelvin);
/// Heat capacity of moist wood, J/kg/K per kg of moist wood, Wood Handbook eq. 4-17 (seen).
double moist_heat_capacity(double moisture, double kelvin);

// EN 1995-1-2 Annex B, standard fire exposure of softwood (from memory, very sure).
/// Table B.1, W/m/K; above 500 degC it stands for cracks and radiation in a fire, too.
materials::Curve en_1995_conductivity();
/// Table B.2, J/kg/K per kg of what is there, water included. The peak, which the table gives for
/// 12 % moisture, stands above the line between its feet in proportion to the moisture.
materials::Curve en_1995_heat_capacity(double moisture);
/// Table B.2, mass over that of the dry wood.
materials::Curve en_1995_mass_ratio(double moisture);

}  // namespace ampstair::heat
