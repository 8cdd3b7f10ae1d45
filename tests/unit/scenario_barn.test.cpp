// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <string>
#include <variant>

#include "diagnostics/problem.hpp"
#include "scenario/arrangement.hpp"
#include "scenario/load.hpp"
#include "scenario/parts.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::scenario;

Loaded barn(const std::string& arrangement = as_built) {
  return load(std::filesystem::path(AMPSTAIR_SOURCE_FOLDER) / "scenarios" / "cider-barn.yaml",
              arrangement);
}

const Piece& piece(const Scenario& scenario, const std::string& name) {
  const auto found = std::find_if(scenario.run.begin(), scenario.run.end(),
                                  [&](const Piece& one) { return one.name == name; });
  REQUIRE(found != scenario.run.end());
  return *found;
}

const ValueUsed& value(const Scenario& scenario, const std::string& path) {
  const auto found = std::find_if(scenario.values.begin(), scenario.values.end(),
                                  [&](const ValueUsed& one) { return one.path == path; });
  REQUIRE(found != scenario.values.end());
  return *found;
}

}  // namespace

TEST_CASE("the barn's run sums to 5.30 m and its pieces lie where the sheet puts them") {
  const auto scenario = barn().scenario;
  CHECK(scenario.length() == Approx(5.30).margin(1e-12));
  CHECK(piece(scenario, "S1").begin == Approx(2.86).margin(1e-12));
  CHECK(piece(scenario, "S1").end() == Approx(2.92).margin(1e-12));
  CHECK(piece(scenario, "north bay").begin == Approx(4.00).margin(1e-12));
  CHECK(piece(scenario, "north bay").end() == Approx(4.80).margin(1e-12));
  double end = 0.0;
  for (const auto& one : scenario.run) {
    CHECK(one.begin == end);
    end = one.end();
  }
}

TEST_CASE("the barn's wire, staircase and surroundings are complete, in SI") {
  const auto scenario = barn().scenario;
  CHECK(scenario.wire.diameter == Approx(2.05e-3));
  REQUIRE(scenario.wire.layers.size() == 2);
  CHECK(scenario.wire.layers[0].thickness == Approx(3.0 / 64.0 * 25.4e-3));
  CHECK(scenario.wire.layers[1].part == "braid");
  CHECK(scenario.wire.layers[1].material->emissivity == Approx(0.90));
  REQUIRE(scenario.staircase.size() == 5);
  CHECK(scenario.staircase[3].level == Approx(42.0));
  CHECK(scenario.duration() == Approx(110.0 * 60.0));
  const auto& air = scenario.surroundings.front().air;
  REQUIRE(air.size() == 3);
  CHECK(air[1].from_time == Approx(70.0 * 60.0));
  CHECK(air[1].temperature == Approx(284.15));  // as in the entry before
  CHECK(air[1].speed == Approx(0.25));
  CHECK(air[2].speed == 0.0);
  CHECK(scenario.start_temperature == Approx(284.15));
  CHECK(scenario.output.radial_cells == 24);
  CHECK(scenario.output.accuracy == Approx(0.05));
}

TEST_CASE("the barn's supports") {
  const auto scenario = barn().scenario;
  const auto& knob = std::get<Knob>(piece(scenario, "K1").kind);
  CHECK(knob.mass == Approx(0.068));
  CHECK(knob.wood->name == "softwood-dry");
  const auto& tube = std::get<Tube>(piece(scenario, "T1").kind);
  CHECK(tube.gap == nullptr);
  CHECK(tube.wood_thickness == Approx(0.051));
  CHECK(std::get<Splice>(piece(scenario, "S1").kind).wrapping.front().part == "tape");
  CHECK(std::get<Sleeve>(piece(scenario, "drop").kind).gap == Approx(0.5e-3));
  const auto& lug = std::get<Lug>(piece(scenario, "A").kind);
  CHECK(lug.sinks_to_lead);
  // 10 000 W/m2/K over a barrel of 15 mm round 2.05 mm
  CHECK(lug.contact_conductance == Approx(1e4 * 3.14159265 * 2.05e-3 * 15e-3));
}

TEST_CASE("the parts that watch items of the barn may name") {
  const auto parts = parts_of(barn().scenario);
  for (const auto* part : {"conductor", "surface", "covering", "rubber", "braid", "ceramic", "wood",
                           "sleeve", "tape"}) {
    CHECK(std::find(parts.begin(), parts.end(), part) != parts.end());
  }
  CHECK(std::find(parts.begin(), parts.end(), "fill") == parts.end());
}

TEST_CASE("every value used says where it came from, and defaults are marked") {
  const auto scenario = barn().scenario;
  const auto& diameter = value(scenario, "wire/metal/diameter");
  CHECK(diameter.source == "micrometer x6");
  CHECK(diameter.low.value() == Approx(2.02e-3));
  CHECK_FALSE(diameter.by_default);
  CHECK(value(scenario, "run/K1/grips").source == "no source given");
  CHECK(value(scenario, "run/K1/covers").by_default);
  CHECK(value(scenario, "run/K1/covers").source == "common practice, no source");
  const auto& conductivity = value(scenario, "materials/rubber-aged-soft/conductivity");
  CHECK(conductivity.unit == "W/m/K");
  CHECK(conductivity.source.find("(seen)") != std::string::npos);
  for (const auto& one : scenario.values) {
    CAPTURE(one.path);
    CHECK_FALSE(one.source.empty());
  }
}

TEST_CASE("an arrangement changes what it lists and nothing else") {
  const auto as_is = barn().scenario;
  const auto filled = barn("bay filled").scenario;
  const auto& bay = std::get<Filled>(piece(filled, "north bay").kind);
  CHECK(bay.fill->name == "cellulose-loose");
  CHECK(bay.radius == Approx(0.150));
  CHECK(bay.fill->conductivity.at(300.0) == Approx(0.042));
  CHECK(std::holds_alternative<Open>(piece(as_is, "north bay").kind));
  CHECK(filled.length() == as_is.length());
  CHECK(std::get<Splice>(piece(filled, "S1").kind).resistance == Approx(0.12e-3));
  const auto poor = barn("poor splice").scenario;
  CHECK(std::get<Splice>(piece(poor, "S1").kind).resistance == Approx(1.6e-3));
}

TEST_CASE("an unknown arrangement is refused with those there are") {
  try {
    barn("bay fulled");
    FAIL("not refused");
  } catch (const diagnostics::InputError& error) {
    const auto told = error.problems().sorted();
    REQUIRE(told.size() == 1);
    CHECK(told[0].code == "E167");
    CHECK(told[0].remedy == "it has: as built, bay filled, poor splice");
  }
}
