// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "checks/histories.hpp"

namespace ampstair::post::checks {

/// The last row of a step of the staircase that the record has reached.
struct StepEnd {
  std::size_t number = 0;  ///< from 1
  std::size_t row = 0;
};
std::vector<StepEnd> step_ends(const Histories& histories);

/// Index of the place of an axis that is nearest to a position [m].
std::size_t place_near(const std::vector<double>& positions, double position);

/// Temperature [K] of a history near a position [m] in one row.
double kelvin_near(const Histories& histories, const std::string& history, double position,
                   std::size_t row);

}  // namespace ampstair::post::checks
