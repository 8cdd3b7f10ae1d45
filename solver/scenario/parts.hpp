// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "scenario/scenario.hpp"

namespace ampstair::scenario {

/// What watch items and probes of this scenario may name: conductor, surface, covering (of a
/// covered wire), every layer, and the families of whatever the pieces add: ceramic, wood, sleeve,
/// tape, ...
std::vector<std::string> parts_of(const Scenario& scenario);

/// Outside of the wire and its covering, m from the axis.
double outer_radius(const Wire& wire);

}  // namespace ampstair::scenario
