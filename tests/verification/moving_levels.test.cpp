// SPDX-License-Identifier: MIT
// Levels that move within a step, steps that end by a rule, and loads that come and go.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "no_12.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;
using Kind = marching::Event::Kind;
using watch::SettlingRule;

constexpr double pi = std::numbers::pi;
constexpr double heat_per_volume = 8890.0 * 385.0;  // J/m3/K

/// Bare No. 12 of constant resistance that loses nothing; 11 degC at first.
Rig without_loss() {
  auto wire = no_12_bare(0.9);
  wire.metal = metal(390.0, 8890.0, 385.0, 1.7241e-8, 0.0);
  auto rig = long_wire(wire, film(0.0, 0.0, barn_air));
  rig.sheet.output.every = 10.0;
  rig.sheet.output.accuracy = 1e-4;
  return rig;
}

const double area = 0.25 * pi * no_12_diameter * no_12_diameter;
const double ohm = 1.7241e-8 / area;              // per metre
const double capacity = heat_per_volume * area;   // J/m/K
const double kelvin_per_square = ohm / capacity;  // K per A2 s

void add_legs(Rig& rig, std::vector<scenario::Leg> legs, double seconds) {
  scenario::Step step;
  step.duration = seconds;
  for (const auto& leg : legs) {
    step.level = std::max({step.level, leg.level, leg.level_at(seconds)});
  }
  step.legs = std::move(legs);
  rig.sheet.staircase.push_back(std::move(step));
}

const marching::Event* first(const Marched& marched, Kind kind) {
  const auto found = std::find_if(marched.events.begin(), marched.events.end(),
                                  [&](const auto& event) { return event.kind == kind; });
  return found == marched.events.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("a ramp of the current makes the integral of its square") {
  // C T' = R (a + b t)^2 without loss, so the rise is R/C ((a + b t)^3 - a^3) / (3 b).
  auto rig = without_loss();
  rig.hold(20, 30);
  add_legs(rig, {{0.0, 20.0, 1.0}}, 60.0);
  add_legs(rig, {{0.0, 80.0, -2.0}}, 40.0);
  const auto marched = run(rig.sheet);
  const auto ramp = [](double a, double b, double t) {
    return (std::pow(a + b * t, 3) - std::pow(a, 3)) / (3.0 * b);
  };
  for (const auto& row : marched.rows) {
    CAPTURE(row.time);
    const double held = 400.0 * std::min(row.time, 30.0);
    const double up = ramp(20.0, 1.0, std::clamp(row.time - 30.0, 0.0, 60.0));
    const double down = ramp(80.0, -2.0, std::clamp(row.time - 90.0, 0.0, 40.0));
    CHECK(row.probe[0] - zero_celsius - barn_air ==
          Approx(kelvin_per_square * (held + up + down)).margin(2e-4));
  }
  CHECK(marched.at(60.0).electrical.asked == Approx(50.0).epsilon(1e-12));
  CHECK(marched.last().electrical.current == Approx(0.0).margin(1e-9));
  CHECK(marched.worst_gap() < 1e-11);
}

TEST_CASE("a ramp meets the supply's ceiling at its time") {
  auto rig = without_loss();
  add_legs(rig, {{0.0, 0.0, 0.5}}, 100.0);
  rig.sheet.supply.voltage_limit = 30.0 * ohm;  // of one metre: met at 30 A, after 60 s
  const auto marched = run(rig.sheet);
  const auto* met = first(marched, Kind::ceiling_met);
  REQUIRE(met != nullptr);
  CHECK(met->time == Approx(60.0).margin(1e-3));
  CHECK(marched.last().electrical.asked == Approx(50.0).epsilon(1e-12));
  CHECK(marched.last().electrical.current == Approx(30.0).epsilon(1e-9));
}

TEST_CASE("legs that hold their levels are the same march as steps that do") {
  auto steps = long_wire(no_12(), still_air(barn_air));
  steps.hold(40, 256).hold(10, 512).hold(30, 256);
  auto legs = long_wire(no_12(), still_air(barn_air));
  add_legs(legs, {{0.0, 40.0, 0.0}, {256.0, 10.0, 0.0}, {768.0, 30.0, 0.0}}, 1024.0);
  const auto a = run(steps.sheet);
  const auto b = run(legs.sheet);
  CHECK(a.ends == b.ends);
  CHECK(a.last().temperature == b.last().temperature);
}

TEST_CASE("a step ends when its rule first holds") {
  // An exponential from 40 K, as in tests/unit/watch_settling_rule.test.cpp; the film makes tau.
  struct Case {
    SettlingRule rule;
    double tau, seconds;
  };
  for (const Case& c : {Case{SettlingRule::one_kelvin_in_an_hour, 600.0, 5811.84},
                        Case{SettlingRule::two_kelvin_in_an_hour, 600.0, 5395.95},
                        Case{SettlingRule::one_kelvin_in_readings, 600.0, 2700.0},
                        Case{SettlingRule::no_change_by_tenths, 600.0, 2400.0},
                        Case{SettlingRule::one_kelvin_in_readings, 3600.0, 7200.0},
                        Case{SettlingRule::no_change_by_tenths, 3600.0, 9415.3}}) {
    auto rig = long_wire(no_12_bare(0.9),
                         film(heat_per_volume * area / c.tau / (pi * no_12_diameter), 0.0, 20.0));
    rig.start(60).rest(40000).rest(100);
    rig.sheet.staircase.front().until = c.rule;
    rig.sheet.output.every = 1000.0;
    rig.sheet.output.accuracy = 1e-5;
    const auto marched = run(rig.sheet);
    CAPTURE(c.tau, watch::word_of(c.rule));
    const auto* settled = first(marched, Kind::step_settled);
    REQUIRE(settled != nullptr);
    CHECK(settled->time == Approx(c.seconds).margin(0.1));
    CHECK(settled->step == 0);
    const auto& row = marched.at(settled->time);
    CHECK(row.step == 0);
    CHECK(row.step_ends);
    CHECK(row.probe[0] - zero_celsius ==
          Approx(20.0 + 40.0 * std::exp(-settled->time / c.tau)).margin(1e-3));
    CHECK(marched.last().time == settled->time + 100.0);
    CHECK(marched.last().step == 1);
    CHECK(marched.worst_gap() < 1e-11);
  }
}

TEST_CASE("a step whose rule does not hold in time runs to its end") {
  auto rig = long_wire(no_12(), still_air(barn_air));
  rig.hold(30, 3000).rest(60);
  rig.sheet.staircase.front().until = SettlingRule::one_kelvin_in_an_hour;
  const auto marched = run(rig.sheet);
  CHECK(first(marched, Kind::step_settled) == nullptr);
  CHECK(marched.last().time == 3060.0);
}

TEST_CASE("a rest of half an hour after 42 A is back at the air") {
  // Within 0.1 K of 11 degC (reference figure of a small independent model).
  auto rig = long_wire(no_12(), still_air(barn_air));
  rig.hold(42, 1320).rest(1800);
  CHECK(run(rig.sheet).last_celsius() == Approx(11.0).margin(0.1));
}

TEST_CASE("a duty of ten minutes on and ten off swings between its limits") {
  // 22 A: from 12.0 to 24.7 degC (reference figures, as above; 2 K or 4 % of the rise).
  auto rig = long_wire(no_12(), still_air(barn_air));
  for (int turn = 0; turn < 6; ++turn) {
    rig.hold(22, 600).rest(600);
  }
  const auto marched = run(rig.sheet);
  CHECK(marched.celsius(6600) == Approx(24.7).margin(stated_tolerance(24.7)));
  CHECK(marched.celsius(7200) == Approx(12.0).margin(0.5));
  CHECK(marched.celsius(6600) == Approx(marched.celsius(5400)).margin(0.1));  // and stays so
}
