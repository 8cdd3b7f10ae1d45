// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "checks/findings.hpp"
#include "checks/histories.hpp"
#include "watch/settling_rule.hpp"

namespace ampstair::post::checks {

/// When a published rule first calls a step settled, and what was still to come then.
struct RuleInStep {
  watch::SettlingRule rule = watch::SettlingRule::one_kelvin_in_an_hour;
  std::optional<double> after;    ///< s since the step began; none: not within the step
  std::optional<double> to_come;  ///< K from then on; none where no end is in sight
};

/// How far a step of the staircase came to rest, by its hottest conductor.
struct StepSettling {
  std::size_t number = 0;                   ///< of the step, from 1
  std::array<RuleInStep, 4> rules;          ///< in the order of watch::SettlingRule
  std::optional<double> final_temperature;  ///< K the step is heading for; none: not in sight
  std::optional<double> to_come;            ///< K, from the end of the step on
};

/// K still to come from which a step that a rule calls settled is told to be rising all the same.
inline constexpr double tells_as_rising = 1.0;

/// Where a series that closes in evenly is heading, from three values at even spacing: Aitken's
/// extrapolation, exact for an exponential. None where it does not close in.
std::optional<double> heading_for(double first, double second, double third);

/// @param findings of the same record, for its steps
std::vector<StepSettling> settling(const Histories& histories, const Findings& findings);

}  // namespace ampstair::post::checks
