// SPDX-License-Identifier: MIT
#pragma once

#include "grid/grid.hpp"

namespace ampstair::grid {

/// Adds the faces that the conductor of open pieces has where its covering is gone; none where the
/// scenario lets no covering go. Where something touches the covering it stays.
void add_bare_faces(const scenario::Scenario& scenario, Grid& grid);

}  // namespace ampstair::grid
