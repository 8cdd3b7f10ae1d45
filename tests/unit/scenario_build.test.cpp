// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include "diagnostics/problem.hpp"
#include "scenario/arrangement.hpp"
#include "scenario/load.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::scenario;

/// A small sound sheet; the marked parts can be exchanged.
struct SmallSheet {
  std::string metal = "{gauge: No. 14}";
  std::string layers = "[{material: rubber-aged-soft, thickness: 1 mm}]";
  std::string middle = "{piece: open, name: leg, length: 1 m}";
  std::string around = "{air: 20 degC}";
  std::string supply = "{mode: current}";
  std::string steps = "[{hold: 10 A, for: 20 min}]";
  std::string rest;

  [[nodiscard]] std::string text() const {
    return "format: run-sheet 1\ntitle: small\nwire:\n  metal: " + metal + "\n  layers: " + layers +
           "\nrun:\n  - {piece: cut-end, name: a, insulated: true}\n  - " + middle +
           "\n  - {piece: cut-end, name: b, held_at: 30 degC}\naround: " + around +
           "\nsupply: " + supply + "\nstaircase: " + steps + "\n" + rest;
  }
};

Loaded loaded(const SmallSheet& sheet) {
  try {
    return load_text(sheet.text(), "small.yaml", as_built);
  } catch (const diagnostics::InputError& error) {
    std::ostringstream told;
    error.problems().print(told);
    FAIL(told.str());
    throw;
  }
}

std::string only_code(const SmallSheet& sheet) {
  try {
    const auto warnings = load_text(sheet.text(), "small.yaml", as_built).warnings.sorted();
    return warnings.size() == 1 ? warnings[0].code : "none";
  } catch (const diagnostics::InputError& error) {
    std::ostringstream told;
    error.problems().print(told);
    const auto all = error.problems().sorted();
    return all.size() == 1 ? all[0].code : told.str();
  }
}

}  // namespace

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

TEST_CASE("air may be one temperature, one entry or a list of entries") {
  for (const auto* air : {"20 degC", "{temperature: 68 degF}", "[{temperature: 293.15 K}]",
                          "[{at: 0 min, temperature: 20 degC, speed: 0 m/s}]"}) {
    CAPTURE(air);
    SmallSheet sheet;
    sheet.around = std::string("{air: ") + air + "}";
    const auto scenario = loaded(sheet).scenario;
    CHECK(scenario.surroundings.front().air.size() == 1);
    CHECK(scenario.start_temperature == Approx(293.15));
  }
}

TEST_CASE("air and walls may come to an entry along a straight line") {
  SmallSheet sheet;
  sheet.around =
      "{air: [{temperature: 10 degC}, {at: 10 min, temperature: 16 degC, ramp: true}, {at: 20 min, "
      "speed: 0.6 m/s, ramp: true}], walls: [{temperature: 5 degC}, {at: 100 s, temperature: 7 "
      "degC, "
      "ramp: true}]}";
  const auto around = loaded(sheet).scenario.surroundings.front();
  REQUIRE(around.air.size() == 3);
  CHECK(around.air[0].temperature_rate == Approx(0.01));
  CHECK(around.air[1].temperature == Approx(289.15));
  CHECK(around.air[1].speed_rate == Approx(1e-3));
  CHECK(around.air[1].temperature_rate == 0.0);
  CHECK(around.air[2].temperature_rate == 0.0);
  REQUIRE(around.walls.size() == 2);
  CHECK(around.walls[0].temperature_rate == Approx(0.02));
  CHECK(only_code(sheet) == "none");
  sheet.around = "{air: {temperature: 10 degC, ramp: true}}";
  CHECK(only_code(sheet) == "E197");
  sheet.around = "{air: 10 degC, walls: [{temperature: 5 degC}, {at: 0 min, temperature: 7 degC}]}";
  CHECK(only_code(sheet) == "E165");
}

TEST_CASE("the air's history may be a file's, whose text is kept") {
  const auto folder = std::filesystem::path(AMPSTAIR_BUILD_FOLDER);
  const auto load_beside = [&](const std::string& csv) {
    std::ofstream(folder / "barn air.csv") << csv;
    SmallSheet sheet;
    sheet.around = "{air: {csv: barn air.csv}}";
    std::ofstream(folder / "csv sheet.yaml") << sheet.text();
    return load(folder / "csv sheet.yaml", as_built);
  };
  const auto faults_of = [&](const std::string& csv) {
    std::string told;
    try {
      load_beside(csv);
    } catch (const diagnostics::InputError& error) {
      for (const auto& one : error.problems().sorted()) {
        told += one.code + " " + std::to_string(one.place.line) + ":" +
                std::to_string(one.place.column) + " ";
      }
    }
    return told;
  };
  const std::string csv =
      "# a log\ntime [min], temperature [degF], speed [km/h]\n0, 50, 0\n10, 68.0, 3.6\n\n20, 68, "
      "0\n";
  const auto scenario = load_beside(csv).scenario;
  const auto& air = scenario.surroundings.front().air;
  REQUIRE(air.size() == 3);
  CHECK(air[1].from_time == Approx(600.0));
  CHECK(air[0].temperature == Approx(283.15));
  CHECK(air[0].temperature_rate == Approx(10.0 / 600.0));
  CHECK(air[1].speed == Approx(1.0));
  CHECK(scenario.start_temperature == Approx(283.15));
  REQUIRE(scenario.files.size() == 1);
  CHECK(scenario.files[0].name == "barn air.csv");
  CHECK(scenario.files[0].text == csv);
  CHECK(faults_of("temperature [degC], time [min]\n11, 0\n12, 1\n") == "");
  CHECK(faults_of("time [min], temperature\n0, 11\n") == "E191 1:13 ");
  CHECK(faults_of("time [min], temprature [degC]\n0, 11\n") == "E191 1:13 ");
  CHECK(faults_of("time [min], speed [m/s]\n0, 1\n") == "E191 1:1 ");
  CHECK(faults_of("time [min], temperature [m]\n0, 1\n").substr(0, 5) == "E111 ");
  CHECK(faults_of("time [min], temperature [degC]\n0, 11\n1, warm\n1, 12, 3\n") ==
        "E192 3:4 E192 4:1 ");
  CHECK(faults_of("time [min], temperature [degC]\n1, 11\n") == "E193 2:1 ");
  CHECK(faults_of("time [min], temperature [degC]\n0, 11\n5, 12\n5, 13\n") == "E193 4:1 ");
  CHECK(faults_of("time [min], temperature [degC]\n0, 1100\n") == "E130 2:4 ");
  CHECK(faults_of("") == "E191 0:1 ");
  SmallSheet sheet;
  sheet.around = "{air: {csv: no such.csv}}";
  CHECK(only_code(sheet) == "E190");
  sheet.around = "{air: {csv: no such.csv, speed: 1 m/s}}";
  CHECK(only_code(sheet) == "E198");
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

TEST_CASE("a piece's own surroundings take the run's for what they do not give") {
  SmallSheet sheet;
  sheet.around = "{air: 20 degC, walls: 15 degC}";
  sheet.middle =
      "{piece: open, name: leg, length: 1 m, around: {film: {coefficient: 8 W/m2/K, emissivity: "
      "0.9}}}";
  const auto scenario = loaded(sheet).scenario;
  REQUIRE(scenario.surroundings.size() == 2);
  CHECK(scenario.run[0].around == 0);
  CHECK(scenario.run[1].around == 1);
  CHECK(scenario.surroundings[1].walls.front().temperature == Approx(288.15));
  CHECK(scenario.surroundings[1].film->coefficient == Approx(8.0));
  CHECK_FALSE(scenario.surroundings[0].film);
}

TEST_CASE("which correlation, how far it is trusted, how high up, and which way the wire runs") {
  SmallSheet sheet;
  sheet.around = "{air: 20 degC, still_air: morgan-1975, convection: 0.9, altitude: 1500 m}";
  sheet.middle =
      "{piece: open, name: leg, length: 1 m, around: {still_air: churchill-chu-1975}}\n"
      "  - {piece: open, name: up, length: 0.5 m, runs: vertical}\n"
      "  - {piece: knob, name: k, grips: 40 mm, runs: vertical}\n"
      "  - {piece: open, name: across, length: 0.5 m}";
  const auto scenario = loaded(sheet).scenario;
  const auto& of_run = scenario.surroundings[0];
  CHECK(of_run.convection.still_air == StillAir::morgan_1975);
  CHECK(of_run.convection.factor == Approx(0.9));
  // 845.56 hPa at 1500 m (ISO 2533, from memory, very sure).
  CHECK(of_run.convection.pressure == Approx(845.56 / 1013.25).epsilon(1e-4));
  const auto& own = scenario.surroundings[scenario.run[1].around];
  CHECK(own.convection.still_air == StillAir::churchill_chu_1975);
  CHECK(own.convection.pressure == of_run.convection.pressure);
  CHECK(scenario.run[1].height == 0.0);
  CHECK(scenario.run[2].height == Approx(0.54));
  CHECK(scenario.run[3].height == Approx(0.54));
  CHECK(scenario.run[4].height == 0.0);
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
