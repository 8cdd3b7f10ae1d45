// SPDX-License-Identifier: MIT
#include "heat/criticality.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "heat/breakdown.hpp"

namespace ampstair::heat {

double critical_parameter(SolidShape shape) {
  switch (shape) {
    case SolidShape::slab:
      return 0.878;
    case SolidShape::cylinder:
      return 2.0;
    case SolidShape::sphere:
      break;
  }
  return 3.32;
}

double temperature_scale(const materials::Breakdown& breakdown, double kelvin) {
  return gas_constant * kelvin * kelvin / breakdown.energy;
}

double frank_kamenetskii(const SelfHeating& solid, double size, double surface) {
  return solid.breakdown.heat * solid.density * rate_constant(solid.breakdown, surface) * size *
         size / (solid.conductivity * temperature_scale(solid.breakdown, surface));
}

std::optional<double> critical_surface(const SelfHeating& solid, SolidShape shape, double size) {
  // The parameter rises with temperature up to E / (2 R), far above what a solid survives.
  constexpr double coldest = 150.0;  // K
  constexpr double hottest = 2000.0;
  double low = coldest;
  double high = std::min(hottest, solid.breakdown.energy / (2.0 * gas_constant));
  const double wanted = critical_parameter(shape);
  if (high <= low || frank_kamenetskii(solid, size, high) < wanted) {
    return std::nullopt;
  }
  for (int halving = 0; halving < 60; ++halving) {
    const double middle = 0.5 * (low + high);
    (frank_kamenetskii(solid, size, middle) < wanted ? low : high) = middle;
  }
  return high;
}

std::optional<double> steady_rise_of_cylinder(double parameter) {
  if (parameter <= 0.0 || parameter > critical_parameter(SolidShape::cylinder)) {
    return std::nullopt;
  }
  // B^2 - 2 m B + 1 = 0 with m = 4 / parameter - 1; the lesser root without cancellation.
  const double m = 4.0 / parameter - 1.0;
  const double lesser = 1.0 / (m + std::sqrt(std::max(0.0, m * m - 1.0)));
  return 2.0 * std::log1p(lesser);
}

double runaway_current(double loss, double resistance, double coefficient) {
  return std::sqrt(loss / (resistance * coefficient));
}

double loss_to_held_ends(double conduction, double length) {
  const double wave = std::numbers::pi / length;
  return conduction * wave * wave;
}

}  // namespace ampstair::heat
