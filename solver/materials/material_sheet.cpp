// SPDX-License-Identifier: MIT
#include "materials/material_sheet.hpp"

#include <array>

#include "materials/pedigree.hpp"

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

const std::vector<sheet::Option>& statuses() {
  static const std::vector<sheet::Option> words = {
      {"seen", "read in the document or in a copy of it"},
      {"from memory", "recalled, not looked up"},
      {"computed", "follows from other values by the formula named"},
      {"common practice", "a figure the trade goes by, without a source"},
      {"measured", "own measurement"}};
  return words;
}

const Mapping<SourceSheet>& source_keys() {
  static const auto keys =
      Mapping<SourceSheet>("source", "Where the values of some properties come from")
          .texts("of", &SourceSheet::of, required(), "the properties, by their keys")
          .text("from", &SourceSheet::from, required(), "document, table, page")
          .choice("status", &SourceSheet::status, statuses(), required(),
                  "how far the value has been traced")
          .number("band", &SourceSheet::band, Dimension::ratio, {0.0, 0.9, true}, optional(),
                  "part by which those of the values that write no low and high may be off, up or "
                  "down: 5 %")
          .text("no_band", &SourceSheet::no_band, optional(),
                "why those of the values that write no low and high have no band: a defined "
                "constant, a value no result rests on")
          .mapping("range", &SourceSheet::range, range_keys(), optional(),
                   "where these values are good, if not over the whole range of the material")
          .place(&SourceSheet::place);
  return keys;
}

const Mapping<MarkSheet>& mark_keys() {
  static const auto keys =
      Mapping<MarkSheet>("mark", "A temperature above which something happens that is not modelled")
          .number("above", &MarkSheet::above, Dimension::temperature, {0.0, 4000.0, true},
                  required(), "where it begins")
          .text("what", &MarkSheet::what, required(), "what happens, in one line")
          .text("from", &MarkSheet::from, optional(), "document, table, page; the library asks it")
          .choice("status", &MarkSheet::status, statuses(), optional(),
                  "how far the figure has been traced; the library asks it")
          .place(&MarkSheet::place);
  return keys;
}

/// Declares what library files and materials on the spot have in common.
template <class T>
Mapping<T>& add_properties(Mapping<T>& keys, const sheet::Need& range) {
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
      .number("heat_of_fusion", &T::heat_of_fusion, Dimension::specific_energy, {0.0, 1e7, true},
              optional(), "heat per mass that melting takes up")
      .number("moisture", &T::moisture, Dimension::ratio, {0.0, 0.25}, optional(),
              "of wood, water over oven-dry mass; the other properties are then of the dry wood, "
              "which dries once from 99 to 120 degC and chars once from 200 degC on")
      .mapping(
          "breakdown", &T::breakdown, breakdown_keys(), optional(),
          "how a covering breaks down by its own heat; nothing breaks down where it is not given")
      .list("marks", &T::marks, mark_keys(), optional(),
            "temperatures above which something happens that a march does not model")
      .mapping("range", &T::range, range_keys(), range, "where the properties are good")
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

Material build_properties(const MaterialSheet& sheet, diagnostics::ProblemList& problems) {
  Material material;
  material.part = sheet.part.value;
  material.conductivity = curve(sheet.conductivity);
  material.density = sheet.density.best;
  material.heat_capacity = curve(sheet.heat_capacity);
  material.emissivity = sheet.emissivity.best;
  material.resistivity = resistivity(sheet, problems);
  material.melting_point = sheet.melting_point.best;
  material.heat_of_fusion = sheet.heat_of_fusion.best;
  material.marks = build_marks(sheet);
  if (sheet.breakdown) {
    material.breakdown = build_breakdown(*sheet.breakdown);
  }
  if (sheet.moisture.present()) {
    material.moisture = sheet.moisture.best;
  }
  if (sheet.range) {
    material.range_low = sheet.range->from.best;
    material.range_high = sheet.range->to.best;
    check_range(*sheet.range, problems);
  }
  return material;
}

}  // namespace

const Mapping<MaterialSheet>& material_keys() {
  static const auto keys = [] {
    Mapping<MaterialSheet> mapping("material", "A material written on the spot");
    add_properties(mapping, optional());
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
    add_properties(mapping, required());
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
  for (const auto& property : properties(sheet)) {
    add_source(material, property);
    add_band(material, property);
  }
  return material;
}

Material build_material(const LibrarySheet& sheet, diagnostics::ProblemList& problems) {
  Material material = build_properties(sheet, problems);
  material.name = sheet.name.value;
  material.about = sheet.about.value;
  read_pedigree(sheet, material, problems);
  return material;
}

}  // namespace ampstair::materials
