// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "checks/findings.hpp"
#include "checks/histories.hpp"
#include "watch/settling_rule.hpp"

namespace ampstair::post::checks {

/// In the order in which they are told.
inline constexpr std::array all_rules = {
    watch::SettlingRule::one_kelvin_in_an_hour, watch::SettlingRule::two_kelvin_in_an_hour,
    watch::SettlingRule::one_kelvin_in_readings, watch::SettlingRule::no_change_by_tenths};

/// When a published rule first calls a step settled, and what was still to come then.
struct RuleInStep {
  watch::SettlingRule rule = watch::SettlingRule::one_kelvin_in_an_hour;
  std::optional<double> after;    ///< s since the step began; none: not within the step
  std::optional<double> to_come;  ///< K from then on; none where no end is in sight
};

/// A piece of the run without a steady state at a held current, in closed form (the record's table
/// "stability").
struct NoSteadyState {
  std::string piece;
  double above = 0.0;  ///< A
};

/// How far a step of the staircase came to rest, by its hottest conductor.
struct StepSettling {
  std::size_t number = 0;                   ///< of the step, from 1
  std::array<RuleInStep, 4> rules;          ///< in the order of all_rules
  std::optional<double> final_temperature;  ///< K the step is heading for; none: not in sight
  std::optional<double> to_come;            ///< K, from the end of the step on
  bool whole = true;         ///< the results go on to the end of the step; else neither is known
  double last_change = 0.0;  ///< K, over the last quarter of what there is of the step
  bool ever_faster = false;  ///< rising, and more in its last quarter than in the one before
  /// Buried piece that the step's held current leaves without a steady state, whatever its ends do.
  std::optional<NoSteadyState> none;
};

/// K still to come from which a step that a rule calls settled is told to be rising all the same.
inline constexpr double tells_as_rising = 1.0;

/// What the end of a step is told as. Flat: a rule calls it settled, and yet it is not.
enum class Rest {
  settled,
  rising,
  falling,
  flat_but_rising,
  flat_but_falling,
  rising_faster,    ///< faster and faster, at a held level: no end in sight
  no_steady_state,  ///< the current is above what a buried piece can settle at
  cannot_say
};
Rest rest_of(const StepSettling& step);

/// Where a series that closes in evenly is heading, from three values at even spacing: Aitken's
/// extrapolation, exact for an exponential. None where it does not close in.
std::optional<double> heading_for(double first, double second, double third);

/// @param findings of the same record, for its steps
std::vector<StepSettling> settling(const Histories& histories, const Findings& findings);

}  // namespace ampstair::post::checks
