// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "materials/material.hpp"
#include "quantities/dimension.hpp"

namespace ampstair::materials {

/// One property of a material as people read it: its values, their band, and where both come from.
struct PropertyValues {
  std::string key;  ///< "conductivity", ...
  quantities::Dimension dimension;
  Curve curve;                    ///< a single number is a curve of one point
  const Band* band = nullptr;     ///< of the material; null where it has none
  std::vector<Source> sources{};  ///< the first speaks for the band
};

/// The properties a material has, in the order of their keys; pointers into `material`.
std::vector<PropertyValues> property_values(const Material& material);

}  // namespace ampstair::materials
