// SPDX-License-Identifier: MIT
#include "heat/ranges.hpp"

#include <cmath>

#include "heat/constants.hpp"

namespace ampstair::heat {

namespace {

constexpr RangeOf free_cylinder{"free convection from a horizontal cylinder", "Churchill & Chu",
                                1975, "Rayleigh number", free_cylinder_rayleigh};
constexpr RangeOf morgan{"free convection from a horizontal cylinder", "Morgan", 1975,
                         "Rayleigh number", morgan_rayleigh};
constexpr RangeOf free_plate{"free convection from a vertical plate", "Churchill & Chu", 1975,
                             "Rayleigh number over the height", free_plate_rayleigh};
constexpr RangeOf slender_curvature{"free convection from a vertical cylinder",
                                    "Popiel, Wojtkowiak & Bober", 2007, "curvature xi",
                                    slender_cylinder_curvature};
constexpr RangeOf slender_rayleigh{"free convection from a vertical cylinder",
                                   "Popiel, Wojtkowiak & Bober", 2007,
                                   "Rayleigh number over the height", slender_cylinder_rayleigh};
constexpr RangeOf crossflow{"flow across a cylinder", "Churchill & Bernstein", 1977,
                            "Reynolds times Prandtl number", crossflow_peclet};
constexpr RangeOf air_table{"properties of air", "Incropera & DeWitt", 2002,
                            "film temperature in K", air_table_kelvin};

}  // namespace

std::vector<ValueInRange> values_in_ranges(Shape shape, const Extent& extent, double surface,
                                           const Flow& flow) {
  const double film = 0.5 * (surface + flow.air_temperature);
  const Air air = air_at(film, flow.convection.pressure);
  const auto grashof_over = [&](double length) {
    return gravity / film * std::abs(surface - flow.air_temperature) * length * length * length /
           (air.kinematic_viscosity * air.kinematic_viscosity);
  };
  std::vector<ValueInRange> values{{&air_table, film}};
  const double rayleigh = grashof_over(extent.length) * air.prandtl;
  switch (shape) {
    case Shape::vertical_plate:
      values.push_back({&free_plate, rayleigh});
      break;
    case Shape::vertical_cylinder: {
      const double grashof = grashof_over(extent.height);
      values.push_back({&slender_rayleigh, grashof * air.prandtl});
      values.push_back({&slender_curvature,
                        slender_cylinder_curvature_at(grashof, extent.height / extent.length)});
      break;
    }
    default:
      values.push_back(
          {flow.convection.still_air == scenario::StillAir::morgan_1975 ? &morgan : &free_cylinder,
           rayleigh});
  }
  if (flow.speed > 0.0) {
    values.push_back(
        {&crossflow, flow.speed * extent.length / air.kinematic_viscosity * air.prandtl});
  }
  return values;
}

}  // namespace ampstair::heat
