// SPDX-License-Identifier: MIT
#pragma once

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

#include "history/layout.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::verbs {

/// Where buried wire has no steady state at a held current, by a loss that does not follow
/// temperature and the resistance as a straight line.
struct RunawayLimit {
  std::string piece;
  double loss = 0.0;       ///< W/m/K to the fill's far side
  double as_long = 0.0;    ///< A, were the piece long
  double held_ends = 0.0;  ///< A, were its ends kept cold: above this the ends cannot save it
};
/// One for every piece in fill without a neighbour; none where resistance does not rise.
std::vector<RunawayLimit> runaway_limits(const scenario::Scenario& scenario);
/// The same for the record, table "stability"; absent where there is none.
std::optional<history::Table> stability_table(const scenario::Scenario& scenario);
/// Tells of steps that hold more than such a limit.
void print_runaway_steps(std::ostream& out, const scenario::Scenario& scenario);

/// Tells where a scenario has no steady state before anything is marched: the current above which
/// buried wire runs away, and the temperature from which a covering heats itself without end.
void print_stability(std::ostream& out, const scenario::Scenario& scenario);

}  // namespace ampstair::verbs
