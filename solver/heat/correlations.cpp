// SPDX-License-Identifier: MIT
#include "heat/correlations.hpp"

#include <cmath>
#include <iterator>

namespace ampstair::heat {

double nusselt_free_cylinder(double rayleigh, double prandtl) {
  const double spread = std::pow(1.0 + std::pow(0.559 / prandtl, 9.0 / 16.0), 8.0 / 27.0);
  const double root = 0.60 + 0.387 * std::pow(rayleigh, 1.0 / 6.0) / spread;
  return root * root;
}

double nusselt_free_cylinder_morgan(double rayleigh) {
  struct Band {
    double below, coefficient, exponent;
  };
  constexpr Band bands[] = {{1e-2, 0.675, 0.058},
                            {1e2, 1.02, 0.148},
                            {1e4, 0.850, 0.188},
                            {1e7, 0.480, 0.250},
                            {morgan_rayleigh.high, 0.125, 0.333}};
  const Band* band = bands;
  while (band + 1 != std::end(bands) && rayleigh >= band->below) {
    ++band;
  }
  return band->coefficient * std::pow(rayleigh, band->exponent);
}

double nusselt_free_plate(double rayleigh, double prandtl) {
  const double spread = std::pow(1.0 + std::pow(0.492 / prandtl, 9.0 / 16.0), 8.0 / 27.0);
  const double root = 0.825 + 0.387 * std::pow(rayleigh, 1.0 / 6.0) / spread;
  return root * root;
}

double slender_cylinder_curvature_at(double grashof, double height_per_diameter) {
  return std::sqrt(32.0) * std::pow(grashof, -0.25) * height_per_diameter;
}

double slender_cylinder_excess(double grashof, double prandtl, double height_per_diameter) {
  const double factor = 0.0571322 + 0.20305 * std::pow(prandtl, -0.43);
  const double exponent =
      0.9165 - 0.0043 * std::sqrt(prandtl) + 0.01333 * std::log(prandtl) + 0.0004809 / prandtl;
  return 1.0 +
         factor * std::pow(slender_cylinder_curvature_at(grashof, height_per_diameter), exponent);
}

double nusselt_crossflow_cylinder(double reynolds, double prandtl) {
  const double laminar = 0.62 * std::sqrt(reynolds) * std::cbrt(prandtl) /
                         std::pow(1.0 + std::pow(0.4 / prandtl, 2.0 / 3.0), 0.25);
  return 0.3 + laminar * std::pow(1.0 + std::pow(reynolds / 282000.0, 5.0 / 8.0), 4.0 / 5.0);
}

}  // namespace ampstair::heat
