// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>

#include "checks/findings.hpp"
#include "watch/state.hpp"

// Findings in the words of plain text; "-" where there is nothing to say.

namespace ampstair::post::verbs {

inline constexpr const char* nothing = "-";

/// "42.0 A".
std::string amount(const std::optional<double>& value, const char* unit, int decimals = 2);
/// "67.6", minutes.
std::string minutes(double seconds);
std::string short_spot(const checks::Spot& spot);         ///< "3.77 m drop + 0.510 m"
std::string asked_text(const checks::StepFinding& step);  ///< "42.0 A", "2.00 V", "rest"
std::string state_text(watch::State state);               ///< "X ● crossed"

}  // namespace ampstair::post::verbs
