// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <sstream>
#include <string>

#include "scenario_small_sheet.hpp"

using namespace ampstair;
using namespace ampstair::tests;

TEST_CASE("a small sheet comes out with every default filled in") {
  const auto scenario = loaded({}).scenario;
  CHECK(scenario.wire.metal->name == "copper");
  // ASTM B258: No. 14 is 1.6277 mm
  CHECK(scenario.wire.diameter == Approx(1.6277e-3).epsilon(1e-4));
  CHECK(scenario.surroundings.front().air.front().temperature == Approx(293.15));
  CHECK(scenario.surroundings.front().walls.empty());
  CHECK_FALSE(scenario.supply.voltage_limit);
  CHECK(scenario.output.every == Approx(10.0));
  CHECK(scenario.output.grid == Approx(5e-3));
  CHECK(scenario.output.radial_cells == 16);
  CHECK(std::get<CutEnd>(scenario.run.front().kind).insulated);
  CHECK(std::get<CutEnd>(scenario.run.back().kind).held_at.value() == Approx(303.15));
}

TEST_CASE("fill reaches to a radius, between two faces, or under one") {
  const auto fill = [](const std::string& reach) {
    SmallSheet sheet;
    sheet.middle = "{piece: filled, name: f, length: 1 m, fill: cellulose-loose, " + reach + "}";
    return sheet;
  };
  const auto radius = [&](const std::string& reach) {
    return std::get<Filled>(loaded(fill(reach)).scenario.run[1].kind).radius;
  };
  CHECK(radius("to: 150 mm") == Approx(0.150));
  // ln(8 z / (pi D)) = ln(r / (D / 2)): r = 4 z / pi, z half the thickness.
  CHECK(radius("slab: 89 mm") == Approx(4.0 * 0.0445 / 3.14159265).epsilon(1e-6));
  // acosh(2 z / D) = ln(r / (D / 2)), D = 3.6277 mm.
  CHECK(radius("depth: 50 mm") ==
        Approx(0.5 * 3.6277e-3 * std::exp(std::acosh(0.1 / 3.6277e-3))).epsilon(1e-4));
  CHECK(only_code(fill("to: 150 mm, slab: 89 mm")) == "E199");
  CHECK(only_code(fill("slab: 3 mm")) == "E180");
  CHECK(only_code(fill("conductivity: 0.04 W/m/K")) == "E122");
  const auto beside = loaded(fill("to: 150 mm, neighbour: {distance: 60 mm}")).scenario;
  CHECK(std::get<Filled>(beside.run[1].kind).neighbour == Approx(0.060));
  CHECK(only_code(fill("to: 150 mm, neighbour: 3 mm")) == "E180");
  SmallSheet open;
  open.middle = "{piece: open, name: o, length: 1 m, around: {neighbour: 60 mm}}";
  CHECK(only_code(open) == "W265");
}

TEST_CASE("a bay holds the pieces that name it, and half of it goes with each of two wires") {
  SmallSheet sheet;
  sheet.around = "{air: 20 degC, walls: 18 degC}";
  sheet.middle =
      "{piece: open, name: drop, length: 2 m, around: {bay: {width: 360 mm, depth: 90 mm, "
      "conductance: 1.9 W/m2/K, lining: {material: softwood-dry, thickness: 8 mm}}, neighbour: 0.1 "
      "m}}\n  - {piece: knob, name: K1, grips: 40 mm, around: {bay: drop}}\n"
      "  - {piece: open, name: out, length: 1 m}";
  const auto scenario = loaded(sheet).scenario;
  REQUIRE(scenario.bays.size() == 1);
  CHECK(scenario.surroundings[scenario.run[1].around].bay == 0);
  CHECK(scenario.run[2].around == scenario.run[1].around);
  CHECK(scenario.run[3].around == 0);
  const Bay& bay = scenario.bays[0];
  CHECK(bay.shared);
  CHECK(bay.inner_conductance == Approx(0.5 * 0.9 * 2.5));
  CHECK(bay.outer_conductance == Approx(0.5 * 0.72 / (1.0 / 1.9 - 0.13)));
  // Dry air at 20 degC and 1 atm: 1.204 kg/m3, 1006 J/kg/K (any text).
  CHECK(bay.air_capacity == Approx(0.5 * 0.36 * 0.09 * 1.204 * 1006.0).epsilon(1e-3));
  const auto wrong = [&](const std::string& around) {
    SmallSheet one;
    one.middle = "{piece: open, name: drop, length: 2 m, around: {" + around + "}}";
    return only_code(one);
  };
  const std::string plain = "bay: {width: 360 mm, depth: 90 mm, conductance: 1.9 W/m2/K}";
  CHECK(wrong(plain) == "none");
  CHECK(wrong("bay: attic") == "E175");
  CHECK(wrong(plain + ", fill: cellulose-loose, to: 100 mm") == "E176");
  CHECK(wrong(plain + ", walls: 15 degC") == "E177");
  CHECK(wrong("bay: {width: 360 mm, depth: 90 mm, conductance: 9 W/m2/K}") == "E130");
}

TEST_CASE("materials may be written on the spot") {
  SmallSheet sheet;
  sheet.metal =
      "{diameter: 2 mm, material: {conductivity: 401 W/m/K, density: 8960 kg/m3, heat_capacity: "
      "385 "
      "J/kg/K, resistivity: 1.7241e-8 ohm m, temperature_coefficient: 0.00393 1/K}}";
  sheet.layers =
      "[{thickness: 1 mm, material: {conductivity: [{at: 0 degC, value: 0.2 W/m/K}, {at: 100 degC, "
      "value: 0.3 W/m/K}], density: 1200 kg/m3, heat_capacity: 1700 J/kg/K}}, {thickness: 0.5 mm, "
      "material: {part: braid, conductivity: 0.07 W/m/K, density: 600 kg/m3, heat_capacity: 1340 "
      "J/kg/K, emissivity: 0.8}}]";
  const auto wire = loaded(sheet).scenario.wire;
  CHECK(wire.metal->conductivity.at(300.0) == Approx(401.0));
  REQUIRE(wire.layers.size() == 2);
  CHECK(wire.layers[0].part == "layer-1");
  CHECK(wire.layers[0].material->conductivity.at(323.15) == Approx(0.25));
  CHECK(wire.layers[0].material->emissivity == Approx(0.90));
  CHECK(wire.layers[1].part == "braid");
  CHECK(wire.layers[1].material->emissivity == Approx(0.8));
}

TEST_CASE("a tube hangs free, or its wood is cut to its length") {
  SmallSheet sheet;
  sheet.middle = "{piece: tube, name: t, length: 30 mm, bore: 8 mm, outer: 14 mm}";
  sheet.rest = "output: {grid: 2 mm}\n";
  auto tube = std::get<Tube>(loaded(sheet).scenario.run[1].kind);
  CHECK(tube.wood_thickness == Approx(0.030));
  sheet.middle =
      "{piece: tube, name: t, length: 30 mm, bore: 8 mm, outer: 14 mm, through: nothing}";
  tube = std::get<Tube>(loaded(sheet).scenario.run[1].kind);
  CHECK(tube.wood == nullptr);
}

TEST_CASE("a piece may face wood across air, of a moisture of its own") {
  SmallSheet sheet;
  sheet.middle =
      "{piece: open, name: leg, length: 1 m, facing: {distance: 6 mm, moisture: 15 %, width: 2 "
      "in}}";
  const auto scenario = loaded(sheet).scenario;
  const auto& facing = scenario.run[1].facing;
  REQUIRE(facing);
  CHECK(facing->distance == Approx(6e-3));
  CHECK(facing->width == Approx(50.8e-3));
  CHECK(facing->depth == Approx(40e-3));
  CHECK(facing->stagnant_film == Approx(4e-3));
  CHECK(facing->wood->moisture == Approx(0.15));
  CHECK(facing->wood->name == "softwood-dry");
  const auto used = std::find_if(scenario.values.begin(), scenario.values.end(),
                                 [](const auto& v) { return v.path == "run/leg/facing/depth"; });
  REQUIRE(used != scenario.values.end());
  CHECK(used->by_default);
  CHECK(used->source == "common practice, no source");
  CHECK_FALSE(scenario.run[0].facing);
}

TEST_CASE("a bare splice has no wrapping and a loose sleeve a usual gap") {
  SmallSheet sheet;
  sheet.middle = "{piece: splice, name: s, length: 60 mm, resistance: 0.1 mohm, kind: bare}";
  CHECK(std::get<Splice>(loaded(sheet).scenario.run[1].kind).wrapping.empty());
  sheet.middle = "{piece: sleeve, name: s, length: 0.5 m, wall: 1 mm, fit: loose}";
  CHECK(std::get<Sleeve>(loaded(sheet).scenario.run[1].kind).gap == Approx(0.5e-3));
  sheet.middle = "{piece: sleeve, name: s, length: 0.5 m, wall: 1 mm, fit: tight}";
  CHECK(std::get<Sleeve>(loaded(sheet).scenario.run[1].kind).gap == 0.0);
}

TEST_CASE("rests and held voltages make steps") {
  SmallSheet sheet;
  sheet.supply = "{mode: voltage}";
  sheet.steps = "[{volts: 0.1 V, for: 10 min}, {rest: 1 h 5 min}]";
  const auto steps = loaded(sheet).scenario.staircase;
  REQUIRE(steps.size() == 2);
  CHECK(steps[0].kind == Step::Kind::hold_voltage);
  CHECK(steps[0].level == Approx(0.1));
  CHECK(steps[1].kind == Step::Kind::rest);
  CHECK(steps[1].duration == Approx(3900.0));
}

TEST_CASE("probes take a part, a radius, or the conductor") {
  SmallSheet sheet;
  sheet.rest =
      "probes: [{name: p, at: leg}, {name: q, at: 0.25 m, part: surface}, {name: r, at: leg - 0.1 "
      "m, part: rubber}, {name: s, at: leg + 0.1 m, radius: 1.2 mm}]\n";
  const auto probes = loaded(sheet).scenario.probes;
  REQUIRE(probes.size() == 4);
  CHECK(probes[0].of == Probe::Of::conductor);
  CHECK(probes[0].position == Approx(0.5));
  CHECK(probes[1].of == Probe::Of::surface);
  CHECK(probes[1].position == Approx(0.25));
  CHECK(probes[2].part == "rubber");
  CHECK(probes[2].position == Approx(0.9));
  CHECK(probes[3].of == Probe::Of::radius);
  CHECK(probes[3].radius == Approx(1.2e-3));
}

TEST_CASE("errors are told of every arrangement, doubts of the one asked for") {
  SmallSheet sheet;
  sheet.middle = "{piece: splice, name: s, length: 1 m, resistance: 0.1 mohm}";
  sheet.supply = "{mode: current, voltage_limit: 0.5 V}";
  sheet.rest = "arrangements: [{name: poor, change: [{piece: s, resistance: 100 mohm}]}]\n";
  CHECK(loaded(sheet).warnings.empty());
  const auto told = load_text(sheet.text(), "small.yaml", "poor").warnings.sorted();
  REQUIRE(told.size() == 1);
  CHECK(told[0].code == "W350");
  sheet.rest = "arrangements: [{name: poor, change: [{piece: s, resistance: 100 m}]}]\n";
  CHECK(only_code(sheet) == "E111");
}

TEST_CASE("faults between keys are told by their own codes") {
  SmallSheet sheet;
  sheet.steps = "[{hold: 10 A, for: 20 min}, {hold: 5 A, for: 20 min}]";
  CHECK(only_code(sheet) == "W241");
  sheet.rest = "shape: any\n";
  CHECK(only_code(sheet) == "none");

  sheet = {};
  sheet.steps = "[{hold: 10 A}]";
  CHECK(only_code(sheet) == "E143");
  sheet.steps = "[{rest: 10 min, for: 10 min}]";
  CHECK(only_code(sheet) == "E142");

  sheet = {};
  sheet.rest = "probes: [{name: p, at: leg, part: conductor, radius: 1 mm}]\n";
  CHECK(only_code(sheet) == "E166");
  sheet.rest = "probes: [{name: p, at: leg, part: ruber}]\n";
  CHECK(only_code(sheet) == "E252");
  sheet.rest = "probes: [{name: p, at: leg}, {name: p, at: leg}]\n";
  CHECK(only_code(sheet) == "E160");

  sheet = {};
  sheet.layers = "[{material: rubber-aged-soft, thickness: 1 mm, name: surface}]";
  CHECK(only_code(sheet) == "E164");
  sheet.layers = "[]";
  CHECK(only_code(sheet) == "none");
  sheet.rest = "watch: [{name: w, part: covering, above: 60 degC, from: test}]\n";
  CHECK(only_code(sheet) == "E252");

  sheet = {};
  sheet.middle = "{piece: filled, name: f, length: 1 m, fill: cellulose-loose, to: 1 mm}";
  CHECK(only_code(sheet) == "E180");
  sheet.middle = "{piece: open, name: f, length: 1 m, around: {to: 100 mm}}";
  CHECK(only_code(sheet) == "E171");
  sheet.middle = "{piece: open, name: f, length: 1 m, around: {fill: cellulose-loose}}";
  CHECK(only_code(sheet) == "E122");
}

TEST_CASE("a completed sheet reads as the same scenario") {
  const auto first = loaded({});
  std::ostringstream completed;
  sheet::print_completed(completed, run_sheet_keys(), first.sheet);
  const auto second = load_text(completed.str(), "completed.yaml", as_built);
  CHECK(second.warnings.empty());
  CHECK(second.scenario.length() == first.scenario.length());
  CHECK(second.scenario.wire.diameter == first.scenario.wire.diameter);
  CHECK(second.scenario.output.every == first.scenario.output.every);
  CHECK(second.scenario.values.size() >= first.scenario.values.size());
}
