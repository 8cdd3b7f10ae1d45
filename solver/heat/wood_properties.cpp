// SPDX-License-Identifier: MIT
#include "heat/wood_properties.hpp"

#include "heat/constants.hpp"

namespace ampstair::heat {

namespace {

constexpr double table_moisture = 0.12;
constexpr double water_capacity = 4180.0;  // J/kg/K

/// From columns in degC.
materials::Curve curve(std::vector<double> celsius, std::vector<double> value) {
  for (double& t : celsius) {
    t += zero_celsius;
  }
  return {std::move(celsius), std::move(value)};
}

}  // namespace

double conductivity_at_24(double specific_gravity, double moisture) {
  return specific_gravity * (0.1941 + 0.004064 * 100.0 * moisture) + 0.01864;
}

double dry_heat_capacity(double kelvin) {
  return 103.1 + 3.867 * kelvin;
}

double heat_capacity_of_bond(double moisture, double kelvin) {
  const double percent = 100.0 * moisture;
  return 1e3 * percent * (-0.06191 + 2.36e-4 * kelvin - 1.33e-4 * percent);
}

double moist_heat_capacity(double moisture, double kelvin) {
  return (dry_heat_capacity(kelvin) + water_capacity * moisture) / (1.0 + moisture) +
         heat_capacity_of_bond(moisture, kelvin);
}

materials::Curve en_1995_conductivity() {
  return curve({20, 200, 350, 500, 800, 1200}, {0.12, 0.15, 0.07, 0.09, 0.35, 1.50});
}

materials::Curve en_1995_heat_capacity(double moisture) {
  const double part = moisture / table_moisture;
  return curve({20, 99, 99, 120, 120, 200, 250, 300, 350, 400, 600, 800, 1200},
               {1530, 1770, 1770 + part * (13600 - 1770), 2120 + part * (13500 - 2120), 2120, 2000,
                1620, 710, 850, 1000, 1400, 1650, 1650});
}

materials::Curve en_1995_mass_ratio(double moisture) {
  return curve({20, 99, 120, 200, 250, 300, 350, 400, 600, 800, 1200},
               {1 + moisture, 1 + moisture, 1, 1, 0.93, 0.76, 0.52, 0.38, 0.28, 0.26, 0});
}

}  // namespace ampstair::heat
