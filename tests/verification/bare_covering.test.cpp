// SPDX-License-Identifier: MIT
// A covering that is gone leaves the bare wire: its own solutions hold from then on.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "no_12.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;
using Kind = marching::Event::Kind;

constexpr double pi = std::numbers::pi;
constexpr double oxidised = 0.78;

scenario::Wire losing(double above_celsius, double coefficient = 0.00393) {
  auto wire = no_12(coefficient);
  wire.covering_gone = scenario::CoveringGone{above_celsius + zero_celsius, {}, oxidised};
  return wire;
}

std::vector<marching::Event> bare_at(const Marched& marched) {
  std::vector<marching::Event> found;
  std::copy_if(marched.events.begin(), marched.events.end(), std::back_inserter(found),
               [](const auto& event) { return event.kind == Kind::covering_gone; });
  return found;
}

/// The rows before and after the moment.
std::pair<Marched::Row, Marched::Row> around(const Marched& marched, double time) {
  const auto first = std::find_if(marched.rows.begin(), marched.rows.end(),
                                  [&](const auto& row) { return row.time == time; });
  return {*first, *std::next(first)};
}

}  // namespace

TEST_CASE("a long wire that has lost its covering settles where the bare wire does") {
  // 42 A: 61.9 degC with the covering, 81.0 bare with an emissivity of 0.78 (reference figures).
  auto rig = long_wire(losing(40.0), still_air(barn_air));
  rig.hold(42, 4e4);
  const auto marched = run(rig.sheet);
  REQUIRE(bare_at(marched).size() == 1);  // all of it together
  CHECK(marched.worst_gap() < 1e-11);
  CHECK(marched.last_celsius(0) == Approx(81.0).margin(stated_tolerance(81.0)));
  const auto bare = steady(no_12_bare(oxidised), still_air(barn_air), 42);
  CHECK(marched.last_celsius(0) == Approx(bare.conductor).margin(0.02));
  CHECK(marched.last_celsius(1) == Approx(bare.surface).margin(0.02));
}

TEST_CASE("the covering goes at its limit, with the heat it held, and the rest is a bare rod") {
  // In a linear film a bare rod that makes I^2 R goes to its end as an exponential.
  constexpr double coefficient = 12.0;  // W/m2/K
  auto rig = long_wire(losing(45.0, 0.0), film(coefficient, 0.0, barn_air));
  rig.hold(42, 1800);
  rig.sheet.output.every = 5.0;
  rig.sheet.output.accuracy = 0.005;
  const auto marched = run(rig.sheet);
  const auto events = bare_at(marched);
  REQUIRE(events.size() == 1);
  CHECK(events.front().temperature - zero_celsius == Approx(45.0).margin(1e-4));
  // It is the surface that counts, not a cell under it: the moment does not follow the grid.
  CHECK(bare_at(run(rig.sheet, 2.0)).at(0).time == Approx(events.front().time).margin(0.2));

  const double length = rig.sheet.length();
  const auto [before, after] = around(marched, events.front().time);
  const double gone = before.ledger.stored - after.ledger.stored;
  CHECK(after.ledger.lost - before.ledger.lost == Approx(gone).epsilon(1e-12));
  // Between the covering's heat capacity times the rise of its inside and of its outside.
  const double heat = length * pi *
                      (1150.0 * 1700.0 * (std::pow(2.21625e-3, 2) - std::pow(1.02625e-3, 2)) +
                       600.0 * 1350.0 * (std::pow(2.71625e-3, 2) - std::pow(2.21625e-3, 2)));
  CHECK(gone > heat * (45.0 - barn_air));
  CHECK(gone < heat * (before.probe[0] - zero_celsius - barn_air));

  const double loss = coefficient * pi * no_12_diameter;  // W/m/K
  const double made = 42.0 * 42.0 * 1.7241e-8 / no_12_area;
  const double tau = 8890.0 * 385.0 * no_12_area / loss;
  const double end = barn_air + made / loss;
  const double begin = before.probe[0] - zero_celsius;
  for (const auto& row : marched.rows) {
    if (row.time > events.front().time) {
      CAPTURE(row.time);
      const double exact = end + (begin - end) * std::exp(-(row.time - events.front().time) / tau);
      CHECK(row.probe[0] - zero_celsius == Approx(exact).margin(0.03));
      CHECK(row.probe[1] == Approx(row.probe[0]).margin(2e-3));
    }
  }
  CHECK(marched.worst_gap() < 1e-11);
}

TEST_CASE("only open pieces lose their covering, from the hottest place outwards") {
  scenario::Sleeve sleeve;
  sleeve.material = solid("sleeving", 0.08, 600.0, 1350.0);
  sleeve.wall = 1.2e-3;
  Rig rig(losing(45.0), still_air(barn_air));
  rig.held_end(barn_air)
      .piece("first", 0.5)
      .piece("sleeve", 0.3, sleeve)
      .piece("second", 0.5)
      .held_end(barn_air);
  rig.radius_probe(0.65, 2.0e-3).conductor_probe(0.65).hold(50, 5400);
  const auto marched = run(rig.sheet);
  const auto events = bare_at(marched);
  REQUIRE(events.size() > 2);
  for (const auto& event : events) {
    CHECK((event.position < 0.5 || event.position > 0.8));
    // Together with its neighbours within half a kelvin, never before one that is hotter.
    CHECK(event.temperature - zero_celsius == Approx(45.0).margin(1e-3));
  }
  CHECK(marched.last().probe[1] - marched.last().probe[0] > 5.0);  // the rubber there is still one
  CHECK(marched.worst_gap() < 1e-11);
  // Beside the held ends nothing gets so hot.
  CHECK(std::all_of(events.begin(), events.end(), [](const auto& event) {
    return event.position > 0.02 && event.position < 1.28;
  }));
}

TEST_CASE("a covering is gone when all of it has broken down as far as the sheet says") {
  // At a rate constant that hardly follows temperature, x = 1 - exp(-A t).
  constexpr double rate = 0.01;  // 1/s
  auto wire = no_12();
  for (auto& layer : wire.layers) {
    auto breaks_down = std::make_shared<materials::Material>(*layer.material);
    breaks_down->breakdown = materials::Breakdown{rate, 1e-3, 0.0, {}, 0.0};
    layer.material = breaks_down;
  }
  wire.covering_gone = scenario::CoveringGone{{}, 0.95, oxidised};
  auto rig = long_wire(wire, still_air(barn_air));
  rig.hold(20, 1000);
  rig.sheet.output.accuracy = 0.005;
  const auto marched = run(rig.sheet);
  const auto events = bare_at(marched);
  REQUIRE(events.size() == 1);
  CHECK(events.front().time == Approx(std::log(20.0) / rate).epsilon(1e-3));
}

TEST_CASE("a covering that never comes to its limit changes no temperature") {
  auto with = long_wire(losing(300.0), still_air(barn_air));
  auto without = long_wire(no_12(), still_air(barn_air));
  for (auto* rig : {&with, &without}) {
    rig->hold(42, 1800);
  }
  CHECK(run(with.sheet).last_celsius(0) == Approx(run(without.sheet).last_celsius(0)).margin(1e-6));
}
