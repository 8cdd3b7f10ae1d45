// SPDX-License-Identifier: MIT
#include "materials/property_values.hpp"

#include <algorithm>
#include <iterator>
#include <string_view>
#include <utility>

namespace ampstair::materials {

namespace {

using quantities::Dimension;

/// A resistivity given by its value at 20 degC and a coefficient has the sources of both.
bool speaks_for(const Source& source, std::string_view key) {
  return source.property == key ||
         (key == "resistivity" && source.property == "temperature_coefficient");
}

}  // namespace

std::vector<PropertyValues> property_values(const Material& material) {
  const auto single = [](double value) { return Curve{{0.0}, {value}}; };
  std::vector<PropertyValues> all = {
      {"conductivity", Dimension::conductivity, material.conductivity},
      {"density", Dimension::density, single(material.density)},
      {"heat_capacity", Dimension::heat_capacity, material.heat_capacity},
      {"emissivity", Dimension::ratio, single(material.emissivity)},
      {"resistivity", Dimension::resistivity, material.resistivity},
      {"melting_point", Dimension::temperature, single(material.melting_point)},
      {"heat_of_fusion", Dimension::specific_energy, single(material.heat_of_fusion)},
      {"moisture", Dimension::ratio, single(material.moisture.value_or(0.0))}};
  all.erase(std::remove_if(all.begin(), all.end(),
                           [](const PropertyValues& property) {
                             const auto& values = property.curve.value;
                             return values.empty() || values.front() == 0.0;
                           }),
            all.end());
  for (auto& property : all) {
    const auto band =
        std::find_if(material.bands.begin(), material.bands.end(),
                     [&](const Band& candidate) { return candidate.property == property.key; });
    property.band = band == material.bands.end() ? nullptr : &*band;
    std::copy_if(material.sources.begin(), material.sources.end(),
                 std::back_inserter(property.sources),
                 [&](const Source& source) { return speaks_for(source, property.key); });
  }
  return all;
}

}  // namespace ampstair::materials
