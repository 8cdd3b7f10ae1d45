// SPDX-License-Identifier: MIT
#pragma once

#include "materials/material.hpp"

namespace ampstair::heat {

/// Width [K] above the melting point over which a metal takes up its heat of fusion. A pure metal
/// melts at one temperature; a width keeps its enthalpy a function of temperature, and this one is
/// far below anything a record shows.
inline constexpr double melting_width = 0.1;

/// Heat capacity [J/kg/K] of a metal with its heat of fusion in it: as given up to the melting
/// point, the heat of fusion spread evenly over melting_width above it, then as given again.
/// @param metal with a melting point and a heat of fusion, both positive
materials::Curve heat_capacity_with_fusion(const materials::Material& metal);

}  // namespace ampstair::heat
