// SPDX-License-Identifier: MIT
#include "materials/material_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

namespace ampstair::materials {

namespace {

using sheet::by_default;
using sheet::Dimension;
using sheet::Mapping;
using sheet::optional;
using sheet::required;

constexpr double room_temperature = 293.15;  // K; reference of the temperature coefficient
// Ends of the straight line that a temperature coefficient stands for; a run stays inside.
constexpr std::array<double, 2> line_ends = {50.0, 2000.0};

const Mapping<RangeSheet>& range_keys() {
  static const auto keys =
      Mapping<RangeSheet>("range", "Temperatures between which the properties are good")
          .number("from", &RangeSheet::from, Dimension::temperature, {0.0, 4000.0}, required(),
                  "lowest temperature")
          .number("to", &RangeSheet::to, Dimension::temperature, {0.0, 4000.0}, required(),
                  "highest temperature");
  return keys;
}

const Mapping<SourceSheet>& source_keys() {
  static const auto keys =
      Mapping<SourceSheet>("source", "Where the values of some properties come from")
          .texts("of", &SourceSheet::of, required(), "the properties, by their keys")
          .text("from", &SourceSheet::from, required(), "document, table, page")
          .choice("status", &SourceSheet::status,
                  {{"seen", "read in the document or in a copy of it"},
                   {"from memory", "recalled, not looked up"},
                   {"computed", "follows from other values by the formula named"},
                   {"common practice", "a figure the trade goes by, without a source"},
                   {"measured", "own measurement"}},
                  required(), "how far the value has been traced")
          .place(&SourceSheet::place);
  return keys;
}

/// Declares what library files and materials on the spot have in common.
template <class T>
Mapping<T>& add_properties(Mapping<T>& keys) {
  return keys
      .text("part", &T::part, optional(),
            "family by which watch items find it: rubber, braid, ceramic, wood, fill, ...")
      .table("conductivity", &T::conductivity, Dimension::conductivity, {1e-4, 1e4, false},
             required(), "thermal conductivity")
      .number("density", &T::density, Dimension::density, {1e-2, 3e4, false}, required(), "density")
      .table("heat_capacity", &T::heat_capacity, Dimension::heat_capacity, {1.0, 1e5, false},
             required(), "heat capacity per mass")
      .number(
          "emissivity", &T::emissivity, Dimension::ratio, {0.02, 1.0},
          by_default("0.90", "common practice, no source: fibrous, mineral and rubber surfaces"),
          "emissivity of its bare surface")
      .table("resistivity", &T::resistivity, Dimension::resistivity, {0.0, 1e3, true}, optional(),
             "electrical resistivity; only a conductor needs it")
      .number("temperature_coefficient", &T::temperature_coefficient, Dimension::per_kelvin,
              {-0.1, 0.1}, optional(),
              "of the resistivity, whose single value then holds at 20 degC: a straight line")
      .number("melting_point", &T::melting_point, Dimension::temperature, {0.0, 4000.0, true},
              optional(), "a march stops where a conductor reaches it")
      .mapping("range", &T::range, range_keys(), optional(), "where the properties are good")
      .place(&T::place);
}

Curve curve(const sheet::Table& table) {
  Curve built;
  for (const auto& point : table.points) {
    built.temperature.push_back(point.temperature);
    built.value.push_back(point.value.best);
  }
  return built;
}

/// rho(T) = rho20 (1 + alpha (T - 20 degC)) as two points far apart.
Curve straight_line(double at_room_temperature, double coefficient) {
  Curve line;
  for (const double kelvin : line_ends) {
    line.temperature.push_back(kelvin);
    line.value.push_back(at_room_temperature * (1.0 + coefficient * (kelvin - room_temperature)));
  }
  return line;
}

Curve resistivity(const MaterialSheet& sheet, diagnostics::ProblemList& problems) {
  const auto& coefficient = sheet.temperature_coefficient;
  if (!coefficient.given() || !sheet.resistivity.present()) {
    return curve(sheet.resistivity);
  }
  if (sheet.resistivity.points.size() != 1) {
    problems.error(
        "E157", coefficient.place,
        "'temperature_coefficient' stands beside a 'resistivity' that is already a table "
        "against temperature.",
        "leave one of the two out");
    return curve(sheet.resistivity);
  }
  return straight_line(sheet.resistivity.points.front().value.best, coefficient.best);
}

std::string told_source(const sheet::Number& number) {
  return number.from.empty() ? "no source given" : number.from;
}

void add_source(Material& material, const char* property, const sheet::Number& number) {
  if (number.present()) {
    material.sources.push_back(
        {property, told_source(number), number.given() ? "user" : "default"});
  }
}

void add_source(Material& material, const char* property, const sheet::Table& table) {
  if (table.present() && !table.points.empty()) {
    add_source(material, property, table.points.front().value);
  }
}

Material build_properties(const MaterialSheet& sheet, diagnostics::ProblemList& problems) {
  Material material;
  material.part = sheet.part.value;
  material.conductivity = curve(sheet.conductivity);
  material.density = sheet.density.best;
  material.heat_capacity = curve(sheet.heat_capacity);
  material.emissivity = sheet.emissivity.best;
  material.resistivity = resistivity(sheet, problems);
  material.melting_point = sheet.melting_point.best;
  if (sheet.range) {
    material.range_low = sheet.range->from.best;
    material.range_high = sheet.range->to.best;
    if (sheet.range->from.present() && sheet.range->to.present() &&
        material.range_low >= material.range_high) {
      problems.error("E158", sheet.range->to.place, "the range ends before it begins.",
                     "give the lower temperature as 'from', the higher as 'to'");
    }
  }
  return material;
}

struct Property {
  std::string_view key;
  bool given;
  sheet::Place place;
};

std::vector<Property> properties(const LibrarySheet& sheet) {
  const auto given = [](const auto& value) { return value.origin == sheet::Origin::given; };
  return {{"conductivity", given(sheet.conductivity), sheet.conductivity.place},
          {"density", given(sheet.density), sheet.density.place},
          {"heat_capacity", given(sheet.heat_capacity), sheet.heat_capacity.place},
          {"emissivity", given(sheet.emissivity), sheet.emissivity.place},
          {"resistivity", given(sheet.resistivity), sheet.resistivity.place},
          {"temperature_coefficient", given(sheet.temperature_coefficient),
           sheet.temperature_coefficient.place},
          {"melting_point", given(sheet.melting_point), sheet.melting_point.place}};
}

bool has_source(const Material& material, std::string_view property) {
  return std::any_of(material.sources.begin(), material.sources.end(),
                     [&](const Source& source) { return source.property == property; });
}

void read_sources(const LibrarySheet& sheet, Material& material,
                  diagnostics::ProblemList& problems) {
  const auto known = properties(sheet);
  for (const auto& source : sheet.sources) {
    for (const auto& of : source.of) {
      const bool found = std::any_of(known.begin(), known.end(), [&](const Property& property) {
        return property.key == of.value && property.given;
      });
      if (!found) {
        problems.error(
            "E156", of.place,
            fmt::format("a source is stated for '{}', which this material does not give.",
                        of.value),
            "name keys that stand in this file");
      }
      material.sources.push_back({of.value, source.from.value, source.status.value});
    }
  }
}

}  // namespace

const Mapping<MaterialSheet>& material_keys() {
  static const auto keys = [] {
    Mapping<MaterialSheet> mapping("material", "A material written on the spot");
    add_properties(mapping);
    return mapping;
  }();
  return keys;
}

const Mapping<LibrarySheet>& library_keys() {
  static const auto keys = [] {
    Mapping<LibrarySheet> mapping("library material", "A file of the materials library");
    mapping
        .choice("format", &LibrarySheet::format, {{"material 1", "this format"}}, required(),
                "what this file is")
        .text("name", &LibrarySheet::name, required(), "the same as the file's name")
        .text("about", &LibrarySheet::about, optional(), "what it is, for people")
        .list("sources", &LibrarySheet::sources, source_keys(), required(),
              "where every value comes from");
    add_properties(mapping);
    return mapping;
  }();
  return keys;
}

Material build_material(const MaterialSheet& sheet, const std::string& name,
                        const std::string& part, diagnostics::ProblemList& problems) {
  Material material = build_properties(sheet, problems);
  material.name = name;
  if (!sheet.part.given()) {
    material.part = part;
  }
  add_source(material, "conductivity", sheet.conductivity);
  add_source(material, "density", sheet.density);
  add_source(material, "heat_capacity", sheet.heat_capacity);
  add_source(material, "emissivity", sheet.emissivity);
  add_source(material, "resistivity", sheet.resistivity);
  add_source(material, "temperature_coefficient", sheet.temperature_coefficient);
  add_source(material, "melting_point", sheet.melting_point);
  return material;
}

Material build_material(const LibrarySheet& sheet, diagnostics::ProblemList& problems) {
  Material material = build_properties(sheet, problems);
  material.name = sheet.name.value;
  read_sources(sheet, material, problems);
  for (const auto& property : properties(sheet)) {
    if (property.given && !has_source(material, property.key)) {
      problems.error(
          "E155", property.place,
          fmt::format("'{}' of '{}' has no source; a library value is only as good as "
                      "where it comes from.",
                      property.key, material.name),
          fmt::format("add  - {{of: [{}], from: ..., status: ...}}  below sources", property.key));
    }
  }
  return material;
}

}  // namespace ampstair::materials
