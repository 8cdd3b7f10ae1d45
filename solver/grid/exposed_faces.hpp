// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>

#include "grid/grid.hpp"
#include "grid/sections.hpp"

namespace ampstair::grid {

/// Adds the faces by which cells of the run meet air or what is held at a temperature: its outside
/// at each station, the ends of what lies round a stretch, and the run's own ends.
/// @param section_of index into `sections` per station
void add_exposed_faces(const scenario::Scenario& scenario, std::span<const Section> sections,
                       std::span<const std::size_t> section_of, Grid& grid);

}  // namespace ampstair::grid
