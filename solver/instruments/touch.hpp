// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

namespace ampstair::instruments {

/// What a hand touches.
struct Touched {
  enum class Kind { bare_metal, ceramic, plastic, wood };  ///< plastic: rubber, tape, fabric too
  double effusivity = 0.0;  ///< sqrt(conductivity density heat capacity), J/m2/K/s^1/2
  Kind kind = Kind::plastic;
};

/// Temperature [K] that skin and surface take on between them at first touch, both being thick:
/// the mean of both weighed by their effusivities (any text on heat conduction).
/// @param surface K
/// @param skin K
double skin_contact(double surface, double effusivity, double skin = 306.15,
                    double skin_effusivity = 1200.0);

/// Between which surface temperatures [K] a burn begins.
struct BurnBand {
  double low = 0.0;   ///< below: no burn is expected by the standard
  double high = 0.0;  ///< above: a burn is expected
};

/// Burn threshold of ISO 13732-1 for hot surfaces after a contact time [s], between its figures
/// straight in the logarithm of the time. None below 0.5 s, which the standard leaves out. The
/// figures are from memory (1 min and longer: very sure; shorter: moderately sure).
std::optional<BurnBand> burn_band(Touched::Kind kind, double contact);

/// What the standard says of a touch. It grades burns, neither pain nor what a hand can tell.
enum class TouchState { below, in_band, above, outside_scope };
TouchState judge_touch(Touched::Kind kind, double surface, double contact);

}  // namespace ampstair::instruments
