// SPDX-License-Identifier: MIT
#pragma once

#include "history/layout.hpp"
#include "scenario/scenario.hpp"

// Tables of a record about what the supply was told, and about the circuit's device.

namespace ampstair::verbs {

/// Steps of the staircase with their planned times.
history::Table steps_table(const scenario::Scenario& scenario);
/// How the level moves in steps that do not hold it.
history::Table legs_table(const scenario::Scenario& scenario);
/// The overcurrent device; one entry or none.
history::Table device_table(const scenario::Scenario& scenario);
/// Currents at which it has to open.
history::Table openings_table(const scenario::Scenario& scenario);

}  // namespace ampstair::verbs
