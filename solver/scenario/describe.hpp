// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "scenario/scenario.hpp"

namespace ampstair::scenario {

/// The word a run sheet has for a piece's kind: "open", "knob", "filled", ...
std::string kind_word(const Piece& piece);

/// "air 11.0 degC, still; from 70 min 0.25 m/s; walls 11.0 degC".
std::string describe(const Surroundings& surroundings);

/// What surrounds a piece as far as it differs from the run's: "cellulose-loose to 150 mm", else
/// "".
std::string describe_own_surroundings(const Scenario& scenario, const Piece& piece);

}  // namespace ampstair::scenario
