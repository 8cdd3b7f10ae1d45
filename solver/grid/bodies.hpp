// SPDX-License-Identifier: MIT
#pragma once

#include "grid/grid.hpp"

namespace ampstair::grid {

/// Adds the run's knobs, lugs and the wood it faces to a grid whose stations and patches are laid.
void add_bodies(const scenario::Scenario& scenario, double scale, Grid& grid);

}  // namespace ampstair::grid
