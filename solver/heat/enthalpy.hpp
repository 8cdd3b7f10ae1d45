// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "heat/enthalpy_knot.hpp"
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
  [[nodiscard]] State at(double u) const {
    if (u <= knots_.front().variable) {
      return {u, 1.0};
    }
    // Curves have a handful of points: from the first on is quicker than halving.
    std::size_t i = 0;
    while (i + 1 < knots_.size() && knots_[i + 1].variable <= u) {
      ++i;
    }
    const EnthalpyKnot& k = knots_[i];
    // ratio d + ratio_slope d^2 / 2 = u - k.variable, solved without cancellation for small slopes.
    const double rest = u - k.variable;
    const double root = std::sqrt(std::max(k.ratio * k.ratio + 2.0 * k.ratio_slope * rest, 1e-30));
    return {k.temperature + 2.0 * rest / (k.ratio + root), 1.0 / root};
  }
  /// By rising u; before the first, and from the last on, heat capacity is constant.
  [[nodiscard]] const std::vector<EnthalpyKnot>& knots() const { return knots_; }

 private:
  std::vector<EnthalpyKnot> knots_;  // first and last extend beyond the curve with constant c
  double reference_capacity_ = 0.0;
};

}  // namespace ampstair::heat
