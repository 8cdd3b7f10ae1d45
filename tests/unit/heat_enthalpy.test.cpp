// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "heat/enthalpy.hpp"

namespace {

using ampstair::heat::Enthalpy;
using ampstair::materials::Curve;

/// Heat capacity of moist softwood, EN 1995-1-2 table B.2 (from memory, very sure), K and J/kg/K:
/// its peak from 99 to 120 degC carries the latent heat of drying.
Curve moist_wood() {
  return {{293.15, 372.15, 372.15, 393.15, 393.15, 473.15, 523.15, 573.15, 623.15},
          {1530, 1770, 13600, 13500, 2120, 2000, 1620, 710, 850}};
}

}  // namespace

TEST_CASE("enthalpy and temperature come back to each other") {
  const Enthalpy enthalpy(moist_wood());
  for (double t = 250.0; t < 900.0; t += 0.37) {
    const auto state = enthalpy.at(enthalpy.variable(t));
    CHECK(state.temperature == Approx(t).epsilon(1e-12));
  }
}

TEST_CASE("the slope of temperature against enthalpy is the ratio of the capacities") {
  const Enthalpy enthalpy(moist_wood());
  CHECK(enthalpy.reference_capacity() == 1530.0);
  for (const double t : {280.0, 330.0, 380.0, 392.0, 400.0, 500.0, 610.0, 800.0}) {
    CHECK(1530.0 / enthalpy.at(enthalpy.variable(t)).slope ==
          Approx(moist_wood().at(t)).epsilon(1e-9));
  }
}

TEST_CASE("the heat under the peak of drying is held") {
  const Enthalpy enthalpy(moist_wood());
  const auto heat = [&](double from, double to) {  // J/kg
    return 1530.0 * (enthalpy.variable(to) - enthalpy.variable(from));
  };
  // Area of the table's trapezia (CALC): 79 K of 1530..1770 and 21 K of 13600..13500.
  CHECK(heat(293.15, 372.15) == Approx(79.0 * 1650.0).epsilon(1e-12));
  CHECK(heat(372.15, 393.15) == Approx(21.0 * 13550.0).epsilon(1e-12));
  // However large the step: the excess enthalpy of one second step past the peak is all there.
  CHECK(
      heat(293.15, 573.15) ==
      Approx(79.0 * 1650 + 21 * 13550.0 + 80 * 2060.0 + 50 * 1810.0 + 50 * 1165.0).epsilon(1e-12));
}

TEST_CASE("drying 12 % moist wood takes the heat the design code's table states") {
  // EN 1995-1-2 B.2, 12 % moisture, 20 to 120 degC per kg of dry wood with its water: 447.6 kJ,
  // of which 301.6 kJ between 99 and 120 degC (CALC from the table, whose heat capacity is per kg
  // of moist wood, 1.12 kg per dry kg below 120 degC with the density falling linearly to 1.00; 1
  // %).
  const Enthalpy enthalpy(moist_wood());
  const double below = 1.12 * 1530.0 * (enthalpy.variable(372.15) - enthalpy.variable(293.15));
  const double drying = 1.06 * 1530.0 * (enthalpy.variable(393.15) - enthalpy.variable(372.15));
  CHECK(drying == Approx(301.6e3).epsilon(0.01));
  CHECK(below + drying == Approx(447.6e3).epsilon(0.01));
}

TEST_CASE("marching enthalpy conserves heat whatever the step") {
  const Enthalpy enthalpy(moist_wood());
  for (const int steps : {1, 3, 1000}) {
    double u = enthalpy.variable(293.15);
    for (int i = 0; i < steps; ++i) {
      u += 500e3 / 1530.0 / steps;  // 500 kJ/kg in all
    }
    CHECK(enthalpy.at(u).temperature ==
          Approx(enthalpy.at(enthalpy.variable(293.15) + 500e3 / 1530.0).temperature));
  }
}
