// SPDX-License-Identifier: MIT
#include "heat/gap.hpp"

#include <cmath>

#include "heat/air.hpp"
#include "heat/constants.hpp"

namespace ampstair::heat {

namespace {

/// A gap's air but for its conductivity. Density and heat capacity are those of air at 350 K: far
/// too small to matter, but a cell needs some.
materials::Material still_air() {
  materials::Material air;
  air.name = "air gap";
  air.part = "gap";
  air.density = 0.995;
  air.heat_capacity = {{300.0}, {1009.0}};
  return air;
}

}  // namespace

materials::Material gap_air(const GapGeometry& gap) {
  const double ratio = gap.inner_radius / gap.outer_radius;
  const double exchange =
      1.0 / (1.0 / gap.inner_emissivity + ratio * (1.0 / gap.outer_emissivity - 1.0));
  const double path = gap.inner_radius * std::log(gap.outer_radius / gap.inner_radius);
  materials::Material air = still_air();
  for (double t = 220.0; t <= 1500.0; t += 1.0) {
    air.conductivity.temperature.push_back(t);
    air.conductivity.value.push_back(air_at(t).conductivity +
                                     4.0 * exchange * stefan_boltzmann * t * t * t * path);
  }
  return air;
}

materials::Material faced_air(double shape, double width) {
  materials::Material air = still_air();
  for (double t = 220.0; t <= 1500.0; t += 1.0) {
    air.conductivity.temperature.push_back(t);
    air.conductivity.value.push_back(shape * air_at(t).conductivity +
                                     4.0 * width * stefan_boltzmann * t * t * t);
  }
  return air;
}

}  // namespace ampstair::heat
