// SPDX-License-Identifier: MIT
#pragma once

namespace ampstair::heat {

/// Stefan-Boltzmann constant, W/m2/K4 (CODATA 2018).
inline constexpr double stefan_boltzmann = 5.670374419e-8;
/// Standard acceleration of gravity, m/s2 (ISO 80000-3).
inline constexpr double gravity = 9.80665;
/// 0 degC in K (ITS-90).
inline constexpr double zero_celsius = 273.15;

}  // namespace ampstair::heat
