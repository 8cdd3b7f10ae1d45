// SPDX-License-Identifier: MIT
#include "heat/air.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "heat/constants.hpp"

namespace ampstair::heat {

namespace {

struct Row {
  double kelvin, milli_conductivity, micro_viscosity, prandtl;
};

// Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, table A.4 (from memory).
constexpr std::array<Row, 16> air_table{{
    {250.0, 22.3, 11.44, 0.720},
    {300.0, 26.3, 15.89, 0.707},
    {350.0, 30.0, 20.92, 0.700},
    {400.0, 33.8, 26.41, 0.690},
    {450.0, 37.3, 32.39, 0.686},
    {500.0, 40.7, 38.79, 0.684},
    {550.0, 43.9, 45.57, 0.683},
    {600.0, 46.9, 52.69, 0.685},
    {700.0, 52.4, 68.10, 0.695},
    {800.0, 57.3, 84.93, 0.709},
    {900.0, 62.0, 102.9, 0.720},
    {1000.0, 66.7, 121.9, 0.726},
    {1100.0, 71.5, 141.8, 0.728},
    {1200.0, 76.3, 162.9, 0.728},
    {1300.0, 82.0, 185.1, 0.719},
    {1500.0, 100.0, 240.0, 0.685},
}};

double fourth_power(double x) {
  return x * x * x * x;
}

}  // namespace

Air air_at(double kelvin, double pressure) {
  const double t = std::clamp(kelvin, air_table.front().kelvin, air_table.back().kelvin);
  std::size_t upper = 1;
  while (upper + 1 < air_table.size() && air_table[upper].kelvin < t) {
    ++upper;
  }
  const Row& a = air_table[upper - 1];
  const Row& b = air_table[upper];
  const double s = (t - a.kelvin) / (b.kelvin - a.kelvin);
  return {1e-3 * std::lerp(a.milli_conductivity, b.milli_conductivity, s),
          1e-6 * std::lerp(a.micro_viscosity, b.micro_viscosity, s) / pressure,
          std::lerp(a.prandtl, b.prandtl, s)};
}

namespace {

/// Free convection alone, as a Nusselt number over the extent's length.
double nusselt_free(Shape shape, const Extent& extent, double grashof, const Air& air,
                    scenario::StillAir still_air) {
  const double rayleigh = grashof * air.prandtl;
  switch (shape) {
    case Shape::vertical_plate:
      return nusselt_free_plate(rayleigh, air.prandtl);
    case Shape::vertical_cylinder: {
      const double slenderness = extent.height / extent.length;
      // Where surface and air are alike there is no boundary layer to be thick.
      const double over_height = std::max(grashof * slenderness * slenderness * slenderness, 1.0);
      return nusselt_free_plate(over_height * air.prandtl, air.prandtl) *
             slender_cylinder_excess(over_height, air.prandtl, slenderness) / slenderness;
    }
    default:
      return still_air == scenario::StillAir::morgan_1975
                 ? nusselt_free_cylinder_morgan(rayleigh)
                 : nusselt_free_cylinder(rayleigh, air.prandtl);
  }
}

}  // namespace

double film_coefficient(Shape shape, const Extent& extent, double surface, const Flow& flow) {
  const double film = 0.5 * (surface + flow.air_temperature);
  const double length = extent.length;
  const Air air = air_at(film, flow.convection.pressure);
  const double rise = std::abs(surface - flow.air_temperature);
  const double grashof = gravity / film * rise * length * length * length /
                         (air.kinematic_viscosity * air.kinematic_viscosity);
  const double free = nusselt_free(shape, extent, grashof, air, flow.convection.still_air);
  double nusselt = free;
  if (flow.speed > 0.0) {
    const double reynolds = flow.speed * length / air.kinematic_viscosity;
    const double forced = nusselt_crossflow_cylinder(reynolds, air.prandtl);
    nusselt = std::pow(fourth_power(free) + fourth_power(forced), 0.25);
  }
  return flow.convection.factor * (nusselt * air.conductivity / length);
}

}  // namespace ampstair::heat
