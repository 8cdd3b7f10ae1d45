// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <vector>

#include "grid/grid.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::grid {

/// One medium round the covering, out to a radius.
struct Band {
  Medium medium;
  double inner = 0.0;   ///< m
  double outer = 0.0;   ///< m
  double finest = 0.0;  ///< m, radial spacing wanted at its inner radius
  double growth = 0.0;  ///< by how much the spacing grows per metre outwards
};

/// A stretch of the run with the same bands all along.
struct Section {
  enum class Outside { air, held, closed };
  double begin = 0.0;
  double end = 0.0;
  std::size_t piece = 0;
  std::size_t surroundings = 0;
  std::vector<Band> bands;
  Outside outside = Outside::air;
  double exposed_part = 1.0;  ///< of the outer surface (a knob covers some)
  double end_spacing = 0.0;   ///< m, spacing along the run wanted at its ends, of a 1 m grid unit
};

/// Radius of the covering's outside, m.
double covering_radius(const scenario::Wire& wire);

/// The run as stretches, in order and contiguous; pieces without length have none.
std::vector<Section> sections_of(const scenario::Scenario& scenario);

}  // namespace ampstair::grid
