// SPDX-License-Identifier: MIT
#pragma once

namespace ampstair::heat {

/// Where a heat capacity that is linear between points begins to change another way: what a loop
/// over many cells of a material needs of its Enthalpy.
struct EnthalpyKnot {
  double temperature;  ///< K
  double variable;     ///< K, of u there
  double ratio;        ///< c / c_ref just above the knot's temperature
  double ratio_slope;  ///< 1/K, of the ratio up to the next knot
};

}  // namespace ampstair::heat
