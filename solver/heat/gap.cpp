// SPDX-License-Identifier: MIT
#include "heat/gap.hpp"

#include <cmath>

#include "heat/air.hpp"
#include "heat/constants.hpp"

namespace ampstair::heat {

materials::Material gap_air(const GapGeometry& gap) {
  const double ratio = gap.inner_radius / gap.outer_radius;
  const double exchange =
      1.0 / (1.0 / gap.inner_emissivity + ratio * (1.0 / gap.outer_emissivity - 1.0));
  const double path = gap.inner_radius * std::log(gap.outer_radius / gap.inner_radius);
  materials::Material air;
  air.name = "air gap";
  air.part = "gap";
  for (double t = 220.0; t <= 1500.0; t += 10.0) {
    air.conductivity.temperature.push_back(t);
    air.conductivity.value.push_back(air_at(t).conductivity +
                                     4.0 * exchange * stefan_boltzmann * t * t * t * path);
  }
  // Density and heat capacity of air at 350 K: far too small to matter, but a cell needs some.
  air.density = 0.995;
  air.heat_capacity = {{300.0}, {1009.0}};
  return air;
}

}  // namespace ampstair::heat
