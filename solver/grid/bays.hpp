// SPDX-License-Identifier: MIT
#pragma once

#include "grid/grid.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::grid {

/// Adds the nodes of the scenario's bays to a grid that is complete but for its padding.
void add_bays(const scenario::Scenario& scenario, Grid& grid);

}  // namespace ampstair::grid
