// SPDX-License-Identifier: MIT
#pragma once

#include <iosfwd>

#include "scenario/scenario.hpp"

namespace ampstair::verbs {

/// Tells where a scenario has no steady state before anything is marched: the current above which
/// buried wire runs away, and the temperature from which a covering heats itself without end.
void print_stability(std::ostream& out, const scenario::Scenario& scenario);

}  // namespace ampstair::verbs
