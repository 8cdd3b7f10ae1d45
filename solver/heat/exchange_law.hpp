// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>

namespace ampstair::heat {

/// What one kind of face gives off per area, as plain numbers for loops over many faces: convection
/// with a film coefficient that is fixed or tabulated, and grey radiation to the walls.
struct ExchangeLaw {
  double air = 0.0;             ///< K
  double radiation = 0.0;       ///< emissivity times Stefan-Boltzmann constant, W/m2/K4
  double walls_emission = 0.0;  ///< radiation times the walls' temperature to the fourth, W/m2
  double fixed = 0.0;           ///< W/m2/K, where there is no table

  /// Film coefficient [W/m2/K] and its slope per interval, one after the other point by point, at
  /// even spacing of the signed square root of the surface's excess over the air; null where the
  /// coefficient is fixed.
  const double* film = nullptr;
  double table_begin = 0.0;    ///< K^1/2
  double table_spacing = 0.0;  ///< K^1/2
  std::size_t table_size = 0;
};

}  // namespace ampstair::heat
