// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "materials/material.hpp"

namespace ampstair::heat {

/// Enthalpy of a material whose heat capacity changes with temperature, as a temperature-like
/// variable u = T_ref + (1/c_ref) * integral of c dT from T_ref, so that u = T where c = c_ref.
/// Marching u instead of T conserves energy whatever the step and however sharp a peak of c is.
class Enthalpy {
 public:
  /// @param heat_capacity J/kg/K against K, linear between points (jumps allowed), positive
  explicit Enthalpy(const materials::Curve& heat_capacity);

  /// J/kg/K: heat capacity at the first point, the c_ref above.
  [[nodiscard]] double reference_capacity() const { return reference_capacity_; }
  /// u [K] at a temperature [K].
  [[nodiscard]] double variable(double kelvin) const;
  /// Temperature [K] at u, and its slope dT/du = c_ref / c.
  struct State {
    double temperature = 0.0;
    double slope = 1.0;
  };
  [[nodiscard]] State at(double u) const;

 private:
  struct Knot {
    double temperature, variable, ratio;  // ratio: c / c_ref just above the knot's temperature
    double ratio_slope;                   // of the ratio against temperature up to the next knot
  };
  std::vector<Knot> knots_;  // first and last extend beyond the curve with constant c
  double reference_capacity_ = 0.0;
};

}  // namespace ampstair::heat
