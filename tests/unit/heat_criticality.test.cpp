// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "heat/breakdown.hpp"
#include "heat/criticality.hpp"

using namespace ampstair;
using namespace ampstair::heat;

namespace {

constexpr double kelvin_200 = 473.15;

SelfHeating rubber() {
  return {{1e9, 110e3, 1e6, {}}, 1150.0, 0.15};
}

/// theta'' + n theta' / x + parameter e^theta = 0 from the axis outwards by Runge-Kutta, n = 0, 1,
/// 2 for slab, cylinder, sphere; theta at the surface when it is `axis` on the axis.
double theta_at_surface(double n, double parameter, double axis) {
  constexpr int steps = 4000;
  const double h = 1.0 / steps;
  double x = 1e-9;
  double theta = axis;
  double slope = 0.0;
  const auto bend = [&](double at, double t, double s) {
    return -parameter * std::exp(t) - n * s / at;
  };
  for (int i = 0; i < steps; ++i) {
    const double k1 = slope;
    const double l1 = i == 0 ? -parameter * std::exp(theta) / (n + 1.0) : bend(x, theta, slope);
    const double k2 = slope + 0.5 * h * l1;
    const double l2 = bend(x + 0.5 * h, theta + 0.5 * h * k1, k2);
    const double k3 = slope + 0.5 * h * l2;
    const double l3 = bend(x + 0.5 * h, theta + 0.5 * h * k2, k3);
    const double k4 = slope + h * l3;
    const double l4 = bend(x + h, theta + h * k3, k4);
    theta += h / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
    slope += h / 6.0 * (l1 + 2.0 * l2 + 2.0 * l3 + l4);
    x += h;
  }
  return theta;
}

/// Greatest parameter with a steady state. Whatever theta is on the axis, shifting it by what it is
/// at the surface and putting that into the parameter leaves the equation as it is.
double greatest_parameter(double n) {
  double greatest = 0.0;
  for (double parameter = 0.2; parameter < 100.0; parameter *= 1.02) {
    greatest = std::max(greatest, parameter * std::exp(theta_at_surface(n, parameter, 0.0)));
  }
  return greatest;
}

}  // namespace

TEST_CASE("a cylinder below the critical parameter has the rise of the closed form") {
  // Parameter 1.5: 2 ln(4/3) = 0.5754; at 2, the critical one, 2 ln 2 = 1.3863 (Frank-Kamenetskii's
  // cylinder in closed form; reference figures from an independent calculation).
  CHECK(steady_rise_of_cylinder(1.5).value() == Approx(0.5754).epsilon(1e-4));
  CHECK(steady_rise_of_cylinder(2.0).value() == Approx(1.3863).epsilon(1e-4));
  CHECK_FALSE(steady_rise_of_cylinder(2.01).has_value());
  for (const double parameter : {0.3, 1.0, 1.5, 1.9}) {
    const double axis = steady_rise_of_cylinder(parameter).value();
    CHECK(theta_at_surface(1.0, parameter, axis) == Approx(0.0).margin(1e-5));
  }
}

TEST_CASE("at 200 degC and 110 kJ/mol the scale is 16.9 K and the critical excess 23.5 K") {
  // Reference figures from an independent calculation: R T^2 / E, and 1.3863 times it.
  CHECK(temperature_scale(rubber().breakdown, kelvin_200) == Approx(16.9).epsilon(0.005));
  CHECK(temperature_scale(rubber().breakdown, kelvin_200) * steady_rise_of_cylinder(2.0).value() ==
        Approx(23.5).epsilon(0.005));
}

TEST_CASE("the critical surface temperature makes the parameter critical") {
  for (const SolidShape shape : {SolidShape::slab, SolidShape::cylinder, SolidShape::sphere}) {
    const double surface = critical_surface(rubber(), shape, 2.2e-3).value();
    CHECK(frank_kamenetskii(rubber(), 2.2e-3, surface) ==
          Approx(critical_parameter(shape)).epsilon(1e-6));
  }
  // Ten times the size is critical at a lower temperature, by E / (R T^2) dT = ln 100 or so.
  CHECK(critical_surface(rubber(), SolidShape::cylinder, 22e-3).value() <
        critical_surface(rubber(), SolidShape::cylinder, 2.2e-3).value() - 50.0);
  auto takes_heat = rubber();
  takes_heat.breakdown.heat = -1e6;
  CHECK_FALSE(critical_surface(takes_heat, SolidShape::cylinder, 2.2e-3).has_value());
}

TEST_CASE("the critical parameters are the greatest with a steady state") {
  CHECK(critical_parameter(SolidShape::slab) == Approx(greatest_parameter(0.0)).epsilon(0.002));
  CHECK(critical_parameter(SolidShape::cylinder) == Approx(greatest_parameter(1.0)).epsilon(0.002));
  CHECK(critical_parameter(SolidShape::sphere) == Approx(greatest_parameter(2.0)).epsilon(0.002));
}

TEST_CASE("the buried barn wire runs away above the current stated") {
  // 54.4 A with 0.0607 W/m/K (reference figure of an independent calculation).
  CHECK(runaway_current(0.0607, 5.211e-3, 0.00393) == Approx(54.4).epsilon(0.002));
  // Ends kept cold: a rise sin(pi z / L) neither grows nor falls where R a I^2 - G = k A (pi /
  // L)^2; 0.8 m of No. 12, 390 W/m/K x 3.309 mm2: 0.0199 W/m/K, 62.7 A (computed).
  const double to_ends = loss_to_held_ends(390.0 * 3.309e-6, 0.8);
  CHECK(to_ends == Approx(0.0199).epsilon(0.003));
  CHECK(runaway_current(0.0607 + to_ends, 5.211e-3, 0.00393) == Approx(62.7).epsilon(0.002));
}

TEST_CASE("the rate of a breakdown follows Arrhenius both ways") {
  const auto breakdown = rubber().breakdown;
  const double at = temperature_of_rate(breakdown, 1e-4);
  CHECK(rate_constant(breakdown, at) == Approx(1e-4).epsilon(1e-12));
  // 40 times from 50 to 90 degC at 90 kJ/mol (from the law itself).
  const materials::Breakdown slow{1e9, 90e3, 0.0, {}};
  CHECK(rate_constant(slow, 363.15) / rate_constant(slow, 323.15) == Approx(40.0).epsilon(0.005));
}
