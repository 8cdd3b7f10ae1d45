// SPDX-License-Identifier: MIT
#include "verbs/material_text.hpp"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <ostream>
#include <string_view>

#include "materials/property_values.hpp"
#include "quantities/number_text.hpp"
#include "quantities/parse.hpp"

namespace ampstair::verbs {

namespace {

using materials::Band;
using materials::Curve;
using materials::Material;
using materials::PropertyValues;
using quantities::Dimension;

constexpr double zero_celsius = 273.15;                   // K
constexpr double room_temperature = zero_celsius + 20.0;  // K
constexpr std::size_t line_width = 100;

std::string at_room_temperature(const Curve& curve) {
  return quantities::significant(curve.at(room_temperature), 4) + (curve.constant() ? "" : "*");
}

std::string celsius(double kelvin) {
  return quantities::significant(kelvin - zero_celsius, 6);
}

std::string from_to(double low, double high) {
  return high > low ? fmt::format("{} to {}", celsius(low), celsius(high)) : "not stated";
}

/// The same in whole degrees, for the list.
std::string about_from_to(double low, double high) {
  return high > low ? fmt::format("{:.0f} to {:.0f}", low - zero_celsius, high - zero_celsius)
                    : "not stated";
}

/// A text broken into lines below `line_width`, each indented.
void print_wrapped(std::ostream& out, std::string_view text, std::size_t indent) {
  const std::string margin(indent, ' ');
  std::string line;
  while (!text.empty()) {
    const auto end = std::min(text.find(' '), text.size());
    const auto word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (!line.empty() && indent + line.size() + 1 + word.size() > line_width) {
      fmt::print(out, "{}{}\n", margin, line);
      line.clear();
    }
    line += (line.empty() ? "" : " ") + std::string(word);
  }
  fmt::print(out, "{}{}\n", margin, line);
}

/// The number alone, in the unit its property is told in.
std::string number(double si, Dimension dimension) {
  if (dimension == Dimension::temperature) {
    return celsius(si);
  }
  return dimension == Dimension::resistivity ? fmt::format("{:.5g}", si)
                                             : quantities::significant(si, 5);
}

std::string unit(Dimension dimension) {
  return dimension == Dimension::temperature ? "degC" : std::string(quantities::si_unit(dimension));
}

std::string band_of_point(const PropertyValues& property, std::size_t i) {
  if (property.band == nullptr || property.band->low.empty()) {
    return "";
  }
  return fmt::format("  ({} to {})", number(property.band->low[i], property.dimension),
                     number(property.band->high[i], property.dimension));
}

void print_values(std::ostream& out, const PropertyValues& property) {
  const auto& curve = property.curve;
  if (curve.constant()) {
    const auto told = number(curve.value.front(), property.dimension);
    const auto of = unit(property.dimension);
    fmt::print(out, "  {:<15} {}{}{}{}\n", property.key, told, of.empty() ? "" : " ", of,
               band_of_point(property, 0));
    return;
  }
  fmt::print(out, "  {:<15} {} against temperature, straight between the points\n", property.key,
             unit(property.dimension));
  for (std::size_t i = 0; i < curve.value.size(); ++i) {
    fmt::print(out, "  {:>10} degC  {:>10}{}\n", celsius(curve.temperature[i]),
               number(curve.value[i], property.dimension), band_of_point(property, i));
  }
}

void print_pedigree(std::ostream& out, const PropertyValues& property) {
  if (property.band == nullptr) {
    fmt::print(out, "      no band given\n");
  } else if (property.band->low.empty()) {
    print_wrapped(out, "no band: " + property.band->none, 6);
  }
  for (const auto& source : property.sources) {
    const auto range = source.range_high > source.range_low
                           ? fmt::format(", {} degC", from_to(source.range_low, source.range_high))
                           : std::string();
    print_wrapped(out, fmt::format("[{}{}] {}", source.status, range, source.document), 6);
  }
}

}  // namespace

void print_materials(std::ostream& out, const std::vector<Material>& materials) {
  std::size_t width = 8;
  for (const auto& material : materials) {
    width = std::max(width, material.name.size());
  }
  fmt::print(out, "{:<{}}  {:<8} {:>7} {:>6} {:>7} {:>14}  {}\n", "material", width, "part",
             "W/m/K", "kg/m3", "J/kg/K", "good at degC", "what it is");
  for (const auto& material : materials) {
    fmt::print(out, "{:<{}}  {:<8} {:>7} {:>6} {:>7} {:>14}  {}\n", material.name, width,
               material.part, at_room_temperature(material.conductivity),
               quantities::significant(material.density, 4),
               at_room_temperature(material.heat_capacity),
               about_from_to(material.range_low, material.range_high), material.about);
  }
  fmt::print(out,
             "\n* a table against temperature; this is its value at 20 degC.  ampstair materials "
             "NAME  tells everything.\nThese are defaults with a source, not measurements of your "
             "wire.\n");
}

void print_material(std::ostream& out, const Material& material, const std::string& file) {
  fmt::print(out, "{}: {}\n", material.name, material.about);
  fmt::print(out, "  part {}, good at {} degC\n  {}\n", material.part,
             from_to(material.range_low, material.range_high), file);
  for (const auto& property : materials::property_values(material)) {
    fmt::print(out, "\n");
    print_values(out, property);
    print_pedigree(out, property);
  }
  if (!material.marks.empty()) {
    fmt::print(out, "\n  not modelled\n");
  }
  for (const auto& mark : material.marks) {
    print_wrapped(out, fmt::format("above {} degC  {}", celsius(mark.temperature), mark.what), 4);
    print_wrapped(out, fmt::format("[{}] {}", mark.status, mark.source), 6);
  }
}

}  // namespace ampstair::verbs
