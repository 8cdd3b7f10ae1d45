// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "quantities/parse.hpp"
#include "scenario/building.hpp"

namespace ampstair::scenario {

namespace {

using quantities::Dimension;

// A measured diameter and its gauge agree within this; neighbouring gauges differ by 12 %.
constexpr double gauge_tolerance = 0.03;

constexpr double millimetre = 1e-3;

double gauge_diameter(const std::string& gauge) {
  return quantities::parse_gauge(gauge, "gauge").si;
}

/// Bare diameter by the gauge, where one is written and can be read.
std::optional<double> by_gauge(const MetalSheet& sheet, diagnostics::ProblemList& problems) {
  if (!sheet.gauge.given() || sheet.gauge.value == "by-diameter") {
    return std::nullopt;
  }
  const auto parsed = quantities::parse_gauge(sheet.gauge.value, "'gauge' of wire.metal");
  if (parsed.fault) {
    problems.error(parsed.fault->code, sheet.gauge.place, parsed.fault->what, parsed.fault->remedy);
    return std::nullopt;
  }
  return parsed.si;
}

void compare(const MetalSheet& sheet, double gauge, diagnostics::ProblemList& problems) {
  const double diameter = sheet.diameter.best;
  if (std::abs(diameter / gauge - 1.0) <= gauge_tolerance) {
    return;
  }
  const std::string nearest = quantities::nearest_gauge(diameter);
  const double near = gauge_diameter(nearest);
  const bool matches = std::abs(diameter / near - 1.0) <= gauge_tolerance;
  const double resistance = (gauge * gauge) / (diameter * diameter) - 1.0;
  problems.error("E150", sheet.diameter.place,
                 fmt::format("diameter {} does not match gauge {} ({:.3f} mm); {} {} ({:.3f} mm). "
                             "Same current, resistance {:+.0f} %.",
                             sheet.diameter.text, sheet.gauge.value, gauge / millimetre,
                             matches ? "it matches" : "the nearest is", nearest, near / millimetre,
                             100.0 * resistance),
                 "correct one, or state  gauge: by-diameter");
}

double build_diameter(const MetalSheet& sheet, const Building& building) {
  const auto gauge = by_gauge(sheet, building.problems);
  if (sheet.diameter.given()) {
    if (gauge) {
      compare(sheet, *gauge, building.problems);
    }
    return building.values.use("wire/metal/diameter", sheet.diameter, Dimension::length);
  }
  if (gauge) {
    return building.values.use("wire/metal/diameter", *gauge, Dimension::length,
                               "gauge " + sheet.gauge.value, false);
  }
  const bool nothing_written = !sheet.gauge.given() || sheet.gauge.value == "by-diameter";
  if (nothing_written && !building.problems.has_errors()) {
    building.problems.error("E151", sheet.place, "the wire has neither a gauge nor a diameter.",
                            "add  gauge: No. 12  or  diameter: 2.05 mm");
  }
  return 0.0;
}

MaterialPtr build_metal(const MetalSheet& sheet, bool bare, const Building& building) {
  auto metal = building.material(sheet.material, "wire/metal/material", "metal");
  if (!metal) {
    return metal;
  }
  const auto& choice = sheet.material;
  if (metal->resistivity.value.empty()) {
    building.problems.error("E152", choice.mapping ? choice.mapping->place : choice.text.place,
                            "the wire's metal has no resistivity, so no current can be marched.",
                            "choose copper or copper-tinned, or add  resistivity: 1.7241e-8 ohm m, "
                            "temperature_coefficient: 0.00393 1/K");
  }
  if (bare && choice.mapping && !choice.mapping->emissivity.given()) {
    building.problems.error("E153", choice.mapping->place,
                            "the wire is bare but its metal's emissivity is not given; metals run "
                            "from 0.02 polished to 0.9 oxidised.",
                            "add  emissivity: 0.65  (oxidised copper) or your own");
  }
  return metal;
}

/// The layer's material, with the emissivity the sheet gives it here.
MaterialPtr with_emissivity(const MaterialPtr& material, const LayerSheet& sheet,
                            const std::string& path, const Building& building) {
  if (!material || !sheet.emissivity.given()) {
    return material;
  }
  auto own = std::make_shared<materials::Material>(*material);
  own->emissivity = building.values.use(path + "/emissivity", sheet.emissivity, Dimension::ratio);
  return own;
}

void check_part(const std::string& part, const LayerSheet& sheet, std::map<std::string, int>& known,
                diagnostics::ProblemList& problems) {
  static const std::array<std::string, 3> reserved = {"conductor", "surface", "covering"};
  const auto& place = sheet.name.given() ? sheet.name.place : sheet.place;
  if (std::find(reserved.begin(), reserved.end(), part) != reserved.end()) {
    problems.error("E164", place,
                   fmt::format("no layer can be called '{}'; the word is taken.", part),
                   "choose another name, e.g. jacket");
    return;
  }
  const auto [first, is_new] = known.emplace(part, place.line);
  if (!is_new) {
    problems.error(
        "E160", place,
        fmt::format("two layers are called '{}' (first at line {}).", part, first->second),
        fmt::format("add a name to one of them, e.g.  name: outer {}", part));
  }
}

Layer build_layer(const LayerSheet& sheet, std::size_t number, const Building& building) {
  const std::string path = fmt::format("wire/layers/{}", number);
  Layer layer;
  layer.part = fmt::format("layer-{}", number);
  const auto material = building.material(sheet.material, path + "/material", layer.part);
  layer.material = with_emissivity(material, sheet, path, building);
  layer.thickness = building.values.use(path + "/thickness", sheet.thickness, Dimension::length);
  if (sheet.name.given()) {
    layer.part = sheet.name.value;
  } else if (material) {
    layer.part = material->part;
  }
  return layer;
}

void check_covering_gone(const CoveringGoneSheet& sheet, const Wire& wire,
                         diagnostics::ProblemList& problems) {
  if (wire.layers.empty()) {
    problems.error("E187", sheet.place, "the wire is bare: it has no covering that could be gone.",
                   "give its 'layers', or leave 'covering_gone' out");
    return;
  }
  if (!sheet.above.given() && !sheet.broken_down.given()) {
    problems.error("E188", sheet.place, "'covering_gone' does not say when the covering is gone.",
                   "add  above: 350 degC  (your own trial), or  broken_down: 0.95");
  }
  const auto breaks_down = [](const Layer& layer) {
    return layer.material && layer.material->breakdown.has_value();
  };
  if (sheet.broken_down.given() &&
      !std::all_of(wire.layers.begin(), wire.layers.end(), breaks_down)) {
    problems.error("E189", sheet.broken_down.place,
                   "a layer's material states no 'breakdown', so its part broken down stays 0.",
                   "state the breakdown of every layer's material, or use  above: 350 degC");
  }
}

std::optional<CoveringGone> build_covering_gone(const CoveringGoneSheet& sheet, const Wire& wire,
                                                const Building& building) {
  check_covering_gone(sheet, wire, building.problems);
  const std::string path = "wire/covering_gone";
  CoveringGone gone;
  if (sheet.above.given()) {
    gone.above = building.values.use(path + "/above", sheet.above, Dimension::temperature);
  }
  if (sheet.broken_down.given()) {
    gone.broken_down =
        building.values.use(path + "/broken_down", sheet.broken_down, Dimension::ratio);
  }
  if (sheet.emissivity.given()) {
    gone.emissivity = building.values.use(path + "/emissivity", sheet.emissivity, Dimension::ratio);
  } else if (wire.metal) {
    gone.emissivity = building.values.use(path + "/emissivity", wire.metal->emissivity,
                                          Dimension::ratio, "of the metal", true);
  }
  return gone;
}

}  // namespace

Wire build_wire(const WireSheet& sheet, const Building& building) {
  Wire wire;
  if (sheet.metal) {
    wire.diameter = build_diameter(*sheet.metal, building);
    wire.metal = build_metal(*sheet.metal, sheet.layers.empty(), building);
  }
  std::map<std::string, int> parts;
  for (std::size_t i = 0; i < sheet.layers.size(); ++i) {
    wire.layers.push_back(build_layer(sheet.layers[i], i + 1, building));
    check_part(wire.layers.back().part, sheet.layers[i], parts, building.problems);
  }
  if (sheet.covering_gone) {
    wire.covering_gone = build_covering_gone(*sheet.covering_gone, wire, building);
  }
  return wire;
}

}  // namespace ampstair::scenario
