// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>

#include "diagnostics/contract.hpp"
#include "materials/material.hpp"

namespace ampstair::materials {

double Curve::at(double kelvin) const {
  diagnostics::expects(!value.empty(), "a curve has at least one point");
  if (constant()) {
    return value.front();
  }
  // The first point above: at a jump (a repeated temperature) the later value holds from there on.
  const auto above = std::upper_bound(temperature.begin(), temperature.end(), kelvin);
  if (above == temperature.begin()) {
    return value.front();
  }
  if (above == temperature.end()) {
    return value.back();
  }
  const auto i = static_cast<std::size_t>(above - temperature.begin());
  const double part = (kelvin - temperature[i - 1]) / (temperature[i] - temperature[i - 1]);
  return value[i - 1] + part * (value[i] - value[i - 1]);
}

}  // namespace ampstair::materials
