// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <numbers>
#include <vector>

#include "marching/validity.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;
using marching::Flag;
using Ending = marching::Summary::Ending;

constexpr double diameter = 2e-3;                                       // m
constexpr double area = std::numbers::pi * 0.25 * diameter * diameter;  // m2
constexpr double resistivity = 1.7e-8;                                  // ohm m

struct Watching final : marching::Observer {
  std::vector<Flag> flags;
  std::vector<double> times;
  void moment(const marching::Moment& moment) override { times.push_back(moment.time); }
  void flag(const Flag& flag) override { flags.push_back(flag); }
  bool advanced(double) override { return true; }
};

struct Marched {
  Watching watching;
  marching::Summary summary;
};

Marched marched(const scenario::Scenario& sheet) {
  const auto grid = grid::build(sheet);
  marching::HeatNetwork network(grid, sheet);
  const marching::View view(network, sheet);
  marching::Validity validity(network, view, sheet);
  Marched result;
  result.summary = marching::march(sheet, network, result.watching, nullptr, nullptr, &validity);
  return result;
}

/// Metal of constant properties that holds to 100 degC, and a layer that conducts so well that all
/// of the section has one temperature.
Rig adiabatic(const char* part) {
  auto wire_metal = std::make_shared<materials::Material>(*metal(400, 9000, 400, resistivity, 0.0));
  wire_metal->range_high = zero_celsius + 100.0;
  Rig rig({wire_metal, diameter, {{part, solid(part, 400.0, 1000, 1000), 1e-3}}},
          film(0.0, 0.0, 20.0));
  rig.insulated_end().piece("wire", 0.5).insulated_end();
  rig.sheet.output.accuracy = 1e-3;
  return rig;
}

/// s, until the section has warmed by so many kelvin at a current [A], nothing being lost: with a
/// ring of 1 and 2 mm radius round the wire (energy balance, computed here).
double seconds_to_warm(double kelvin, double current) {
  const double capacity = area * 9000 * 400 + std::numbers::pi * (4e-6 - 1e-6) * 1000 * 1000;
  return kelvin * capacity / (current * current * resistivity / area);
}

}  // namespace

TEST_CASE("a material beyond its range is flagged when it comes to be so, and the march goes on") {
  auto rig = adiabatic("varnish");
  const double when = seconds_to_warm(80.0, 60.0);
  rig.hold(60, 2.0 * when);
  const auto [watching, summary] = marched(rig.sheet);
  REQUIRE(watching.flags.size() == 1);
  const Flag& flag = watching.flags.front();
  CHECK(flag.code == "V110");
  CHECK(flag.severity == Flag::Severity::beyond);
  CHECK(flag.part == "conductor");
  CHECK(flag.time == Approx(when).epsilon(1e-4));
  CHECK(flag.value == Approx(zero_celsius + 100.0).margin(1e-3));
  CHECK(flag.current == Approx(60.0));
  CHECK(summary.ending == Ending::complete);
}

TEST_CASE("a staircase stops at 250 degC in rubber, unless there is a reason to go on") {
  auto rig = adiabatic("rubber");
  const double when = seconds_to_warm(230.0, 60.0);
  rig.hold(60, 1.5 * when);
  SECTION("it stops, and the last moment is of that time") {
    const auto [watching, summary] = marched(rig.sheet);
    CHECK(summary.ending == Ending::validity_ends);
    CHECK(summary.end_time == Approx(when).epsilon(1e-4));
    CHECK(watching.times.back() == summary.end_time);
    REQUIRE(watching.flags.size() == 2);  // the metal's range, then the stop
    CHECK(watching.flags.back().code == "V310");
    CHECK(watching.flags.back().severity == Flag::Severity::stop);
    CHECK(watching.flags.back().part == "rubber");
  }
  SECTION("it goes on") {
    rig.sheet.beyond = "a test";
    const auto [watching, summary] = marched(rig.sheet);
    CHECK(summary.ending == Ending::complete);
    REQUIRE(watching.flags.size() == 2);
    CHECK(watching.flags.back().code == "V310");
    CHECK(watching.flags.back().severity == Flag::Severity::beyond);
    CHECK(watching.flags.back().time == Approx(when).epsilon(1e-4));
  }
}

TEST_CASE("a staircase stops before a step of more than half of the fusing current") {
  // Preece: 10244 A/in^1.5 (2 mm / 25.4 mm)^1.5 = 226.4 A (computed here).
  auto rig = adiabatic("varnish");
  rig.hold(113.0, 1.0).hold(113.5, 1.0);
  const auto [watching, summary] = marched(rig.sheet);
  CHECK(summary.ending == Ending::validity_ends);
  CHECK(summary.end_time == 1.0);
  REQUIRE_FALSE(watching.flags.empty());
  CHECK(watching.flags.back().code == "V320");
  CHECK(watching.flags.back().limit == Approx(113.2).epsilon(1e-3));
}

TEST_CASE("cold air, and air that hardly moves, are told when they begin") {
  auto rig = adiabatic("varnish");
  rig.sheet.surroundings[0] = still_air(20);
  rig.sheet.surroundings[0].air.push_back({5.0, 200.0, 0.0});
  rig.sheet.surroundings[0].air.push_back({10.0, 290.0, 5e-4});
  rig.hold(10, 20.0);
  const auto flags = marched(rig.sheet).watching.flags;
  REQUIRE(flags.size() >= 3);
  CHECK(flags.front().time == 5.0);
  CHECK(flags.front().value == Approx(205.0));  // film temperature of a surface 10 K warmer
  CHECK(flags.front().limit == 250.0);
  CHECK(flags.back().time == 10.0);
  // 5e-4 m/s over 4 mm, surface 100 K above air at 290 K: at 340 K 19.9e-6 m2/s and Pr 0.701 give
  // Re Pr = 0.0704 (table A.4 of Incropera & DeWitt, from memory; computed here).
  CHECK(flags.back().value == Approx(0.0704).epsilon(0.01));
  for (const Flag& flag : flags) {
    CHECK(flag.code == "V210");
    CHECK(flag.severity == Flag::Severity::note);
  }
}

TEST_CASE("what happens in a material above a mark is a note") {
  auto rig = adiabatic("varnish");
  auto marked = std::make_shared<materials::Material>(*rig.sheet.wire.metal);
  marked->marks = {{zero_celsius + 70.0, "its coat runs", "invented here", "user"}};
  rig.sheet.wire.metal = marked;
  const double when = seconds_to_warm(50.0, 60.0);
  rig.hold(60, 1.2 * when);
  const auto flags = marched(rig.sheet).watching.flags;
  REQUIRE(flags.size() == 1);
  CHECK(flags.front().code == "V130");
  CHECK(flags.front().text == "its coat runs");
  CHECK(flags.front().severity == Flag::Severity::note);
  CHECK(flags.front().time == Approx(when).epsilon(1e-4));
}

TEST_CASE("a run within all ranges has no flags") {
  auto rig = adiabatic("rubber");
  rig.hold(60, seconds_to_warm(70.0, 60.0));
  CHECK(marched(rig.sheet).watching.flags.empty());
}
