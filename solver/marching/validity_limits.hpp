// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "grid/grid.hpp"
#include "marching/flag.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::marching {

/// Temperature of the hottest place of a part up to which something holds.
struct ValidityLimit {
  std::string code, text;
  Flag::Severity severity = Flag::Severity::beyond;
  std::string part;
  double kelvin = 0.0;
};

/// Current up to which a staircase goes on.
struct FusingLimit {
  double current = 0.0;  ///< A
  std::string text;
  Flag::Severity severity = Flag::Severity::stop;
};

/// Upper ends of the ranges of all materials of a grid, by part; where several materials make one
/// part, the lowest. Instead of that of rubber of the covering the limit at which a staircase
/// stops, where it is the lower one. For surfaces to the air the end of the table of air.
std::vector<ValidityLimit> validity_limits(const grid::Grid& grid,
                                           const scenario::Scenario& scenario);

/// Half of the fusing current of the bare wire.
FusingLimit fusing_limit(const scenario::Scenario& scenario);

/// What can be told from the surroundings alone: air or walls below a material's range,
/// correlations or the table of air outside of theirs. In the order of time.
std::vector<Flag> flags_of_surroundings(const grid::Grid& grid, const scenario::Scenario& scenario);

/// The highest temperature [K] that anything round the run has at any time, or the run at first.
double warmest_around(const grid::Grid& grid, const scenario::Scenario& scenario);

}  // namespace ampstair::marching
