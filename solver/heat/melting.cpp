// SPDX-License-Identifier: MIT
#include "heat/melting.hpp"

#include "diagnostics/contract.hpp"

namespace ampstair::heat {

materials::Curve heat_capacity_with_fusion(const materials::Material& metal) {
  diagnostics::expects(metal.melting_point > 0.0 && metal.heat_of_fusion > 0.0,
                       "only a metal that melts has a heat of fusion");
  const materials::Curve& solid = metal.heat_capacity;
  const double begin = metal.melting_point;
  const double end = begin + melting_width;
  const double melting = metal.heat_of_fusion / melting_width;
  materials::Curve curve;
  const auto add = [&](double kelvin, double value) {
    curve.temperature.push_back(kelvin);
    curve.value.push_back(value);
  };
  for (std::size_t i = 0; i < solid.value.size() && solid.temperature[i] < begin; ++i) {
    add(solid.temperature[i], solid.value[i]);
  }
  add(begin, solid.at(begin));
  add(begin, melting);
  add(end, melting);
  add(end, solid.at(end));
  for (std::size_t i = 0; i < solid.value.size(); ++i) {
    if (solid.temperature[i] > end) {
      add(solid.temperature[i], solid.value[i]);
    }
  }
  return curve;
}

}  // namespace ampstair::heat
