// SPDX-License-Identifier: MIT
#include "heat/enthalpy.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "diagnostics/contract.hpp"

namespace ampstair::heat {

Enthalpy::Enthalpy(const materials::Curve& heat_capacity) {
  const auto& t = heat_capacity.temperature;
  const auto& c = heat_capacity.value;
  diagnostics::expects(!c.empty() && c.front() > 0.0, "a heat capacity is positive");
  reference_capacity_ = c.front();
  double u = t.front();
  for (std::size_t i = 0; i + 1 < c.size(); ++i) {
    const double width = t[i + 1] - t[i];
    if (width <= 0.0) {
      continue;  // a jump: the next segment starts at the same temperature
    }
    const double first = c[i] / reference_capacity_;
    const double last = c[i + 1] / reference_capacity_;
    knots_.push_back({t[i], u, first, (last - first) / width});
    u += 0.5 * (first + last) * width;
  }
  knots_.push_back({t.back(), u, c.back() / reference_capacity_, 0.0});
}

double Enthalpy::variable(double kelvin) const {
  if (kelvin <= knots_.front().temperature) {
    return kelvin;  // c = c_ref below the curve and u = T at its first point
  }
  const auto above =
      std::upper_bound(knots_.begin(), knots_.end(), kelvin,
                       [](double t, const EnthalpyKnot& k) { return t < k.temperature; });
  const EnthalpyKnot& k = *std::prev(above);
  const double d = kelvin - k.temperature;
  return k.variable + d * (k.ratio + 0.5 * k.ratio_slope * d);
}

}  // namespace ampstair::heat
