// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "scenario/scenario.hpp"

// A rough balance of the long open wire in still air, for doubts worth a warning before a march;
// no result rests on it. Free convection and radiation together after IEC 60287-2-1 (one cable
// clear of walls, from memory): W = pi D h dT^1.25 with h = 0.21 / D^0.6 + 3.94; a fixed film in
// place of it where the run has one.

namespace ampstair::scenario {

/// What a current comes to in the long open wire, for good.
struct RoughState {
  double temperature = 0.0;  ///< K, of the conductor
  double conductance = 0.0;  ///< W/m/K from conductor to air
};

/// Absent where the wire finds no steady state below 1000 degC.
std::optional<RoughState> rough_state(const Scenario& scenario, double current);

/// K m/W from conductor to the covering's outside, at one temperature [K].
double covering_resistance(const Wire& wire, double kelvin);

/// ohm: the wire's own resistance over the whole run, all of it at one temperature [K].
double wire_resistance(const Scenario& scenario, double kelvin);

/// ohm: leads at the air's first temperature, lugs, splices and the supply's own.
double other_resistance(const Scenario& scenario);

}  // namespace ampstair::scenario
