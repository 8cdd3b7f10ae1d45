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

Air air_at(double kelvin) {
  const double t = std::clamp(kelvin, air_table.front().kelvin, air_table.back().kelvin);
  std::size_t upper = 1;
  while (upper + 1 < air_table.size() && air_table[upper].kelvin < t) {
    ++upper;
  }
  const Row& a = air_table[upper - 1];
  const Row& b = air_table[upper];
  const double s = (t - a.kelvin) / (b.kelvin - a.kelvin);
  return {1e-3 * std::lerp(a.milli_conductivity, b.milli_conductivity, s),
          1e-6 * std::lerp(a.micro_viscosity, b.micro_viscosity, s),
          std::lerp(a.prandtl, b.prandtl, s)};
}

double nusselt_free_cylinder(double rayleigh, double prandtl) {
  const double spread = std::pow(1.0 + std::pow(0.559 / prandtl, 9.0 / 16.0), 8.0 / 27.0);
  const double root = 0.60 + 0.387 * std::pow(rayleigh, 1.0 / 6.0) / spread;
  return root * root;
}

double nusselt_free_plate(double rayleigh, double prandtl) {
  const double spread = std::pow(1.0 + std::pow(0.492 / prandtl, 9.0 / 16.0), 8.0 / 27.0);
  const double root = 0.825 + 0.387 * std::pow(rayleigh, 1.0 / 6.0) / spread;
  return root * root;
}

double nusselt_crossflow_cylinder(double reynolds, double prandtl) {
  const double laminar = 0.62 * std::sqrt(reynolds) * std::cbrt(prandtl) /
                         std::pow(1.0 + std::pow(0.4 / prandtl, 2.0 / 3.0), 0.25);
  return 0.3 + laminar * std::pow(1.0 + std::pow(reynolds / 282000.0, 5.0 / 8.0), 4.0 / 5.0);
}

double film_coefficient(Shape shape, double length, double surface, const Flow& flow) {
  const double film = 0.5 * (surface + flow.air_temperature);
  const Air air = air_at(film);
  const double rise = std::abs(surface - flow.air_temperature);
  const double grashof = gravity / film * rise * length * length * length /
                         (air.kinematic_viscosity * air.kinematic_viscosity);
  const bool cylinder = shape == Shape::horizontal_cylinder;
  const double free = cylinder ? nusselt_free_cylinder(grashof * air.prandtl, air.prandtl)
                               : nusselt_free_plate(grashof * air.prandtl, air.prandtl);
  double nusselt = free;
  if (flow.speed > 0.0) {
    const double reynolds = flow.speed * length / air.kinematic_viscosity;
    const double forced = nusselt_crossflow_cylinder(reynolds, air.prandtl);
    nusselt = std::pow(fourth_power(free) + fourth_power(forced), 0.25);
  }
  return nusselt * air.conductivity / length;
}

}  // namespace ampstair::heat
