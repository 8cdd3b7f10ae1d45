// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>
#include <numbers>
#include <optional>

#include "exact_solutions.hpp"
#include "scenarios.hpp"
#include "watch/tracker.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;
using Kind = marching::Event::Kind;

constexpr double pi = std::numbers::pi;
constexpr double no_14 = 1.62771e-3;  // m, 0.127 mm x 92^((36 - 14) / 39)  (ASTM B258)
constexpr double no_14_area = 0.25 * pi * no_14 * no_14;
constexpr double film_loss = 0.18;  // W/m/K

watch::Item limit(const std::string& part, double celsius) {
  watch::Item item;
  item.name = part + " limit";
  item.part = part;
  item.limit = celsius + zero_celsius;
  return item;
}

/// Time of the n-th event of a kind, if there is one.
std::optional<double> when(const Marched& marched, Kind kind, std::size_t n = 0,
                           std::optional<std::size_t> item = std::nullopt) {
  for (const auto& event : marched.events) {
    if (event.kind == kind && (!item || event.item == item) && n-- == 0) {
      return event.time;
    }
  }
  return std::nullopt;
}

bool has_row_at(const Marched& marched, double time) {
  return std::any_of(marched.rows.begin(), marched.rows.end(),
                     [&](const auto& row) { return row.time == time; });
}

/// Bare No. 14 that loses nothing, IEC 60949's constants; 30 degC at first.
struct Adiabatic {
  AdiabaticHeating law{3.46e6, 1.7241e-8, 234.5, no_14_area};
  Rig rig = long_wire({metal(401, 3.46e6 / 385.0, 385, 1.7241e-8, 1.0 / 254.5), no_14, {}},
                      film(0.0, 0.0, 30.0));
  Adiabatic() {
    rig.sheet.output.every = 600.0;
    rig.sheet.output.accuracy = 1e-5;
  }
  [[nodiscard]] double ohm(double celsius) const {
    return 1.7241e-8 / no_14_area * (celsius + 234.5) / 254.5;
  }
};

/// Bare No. 14 of constant resistance in a linear film: exponentials of one time constant.
struct Lumped {
  double tau = 8960.0 * 385.0 * no_14_area / film_loss;  // 39.9 s
  Rig rig = long_wire({metal(401, 8960, 385, 1.7241e-8, 0.0), no_14, {}},
                      film(film_loss / (pi * no_14), 0.0, 20.0));
  Lumped() {
    rig.sheet.output.every = 600.0;
    rig.sheet.output.accuracy = 1e-5;
  }
  [[nodiscard]] double final_rise(double ampere) const {
    return ampere * ampere * 1.7241e-8 / no_14_area / film_loss;
  }
};

}  // namespace

TEST_CASE("a rise above a limit is found at its time, whatever the rows") {
  Adiabatic wire;
  wire.rig.hold(100, 15.6);
  for (const double celsius : {60.0, 160.0, 299.0}) {
    wire.rig.sheet.watch.push_back(limit("conductor", celsius));
  }
  wire.rig.sheet.watch[1].low = 100.0 + zero_celsius;
  wire.rig.sheet.watch[1].high = 200.0 + zero_celsius;
  const auto marched = run(wire.rig.sheet);
  REQUIRE(marched.events.size() == 5);
  const double expected[] = {60.0, 100.0, 160.0, 200.0, 299.0};
  for (std::size_t i = 0; i < 5; ++i) {
    const auto& event = marched.events[i];
    CHECK(event.kind == Kind::rises_above);
    CHECK(event.time == Approx(wire.law.seconds(100, 30, expected[i])).margin(0.01));
    CHECK(event.temperature - zero_celsius == Approx(expected[i]).margin(0.05));
    CHECK(event.current == 100.0);
    CHECK(has_row_at(marched, event.time));
  }
  CHECK(marched.events[1].bound == marching::Event::Bound::low);
  CHECK(marched.events[2].bound == marching::Event::Bound::best);
  CHECK(marched.events[3].bound == marching::Event::Bound::high);
  CHECK(marched.rows.size() == 1 + 5 + 1);
}

TEST_CASE("a fall below a limit is found at its time, and so is the rise before it") {
  Lumped wire;
  wire.rig.hold(30, 300).rest(300);
  const double level = 20.0 + 0.7 * wire.final_rise(30);
  wire.rig.sheet.watch = {limit("conductor", level)};
  const auto marched = run(wire.rig.sheet);
  CHECK(when(marched, Kind::rises_above).value() ==
        Approx(-wire.tau * std::log(1.0 - 0.7)).margin(0.01));
  const double top = 1.0 - std::exp(-300.0 / wire.tau);
  CHECK(when(marched, Kind::falls_below).value() ==
        Approx(300.0 + wire.tau * std::log(top / 0.7)).margin(0.01));

  Lumped cooling;
  cooling.rig.start(180).rest(300);
  cooling.rig.sheet.watch = {limit("conductor", 100.0)};
  const auto cooled = run(cooling.rig.sheet);
  CHECK(when(cooled, Kind::rises_above).value() == 0.0);  // it begins above
  CHECK(when(cooled, Kind::falls_below).value() ==
        Approx(cooling.tau * std::log(2.0)).margin(0.01));
}

TEST_CASE("a stretch above a limit is timed from its exact begin") {
  Lumped wire;
  wire.rig.hold(30, 300).rest(300);
  auto item = limit("conductor", 20.0 + 0.7 * wire.final_rise(30));
  item.persistence = 120.0;
  wire.rig.sheet.watch = {item};
  watch::LimitTracker tracker(item);
  for (const auto& row : run(wire.rig.sheet).rows) {
    tracker.add(row.time, row.probe[0]);
  }
  const double rise = -wire.tau * std::log(1.0 - 0.7);
  CHECK(tracker.best().crossing_rose().value() == Approx(rise).margin(0.01));
  CHECK(tracker.best().crossed().value() == Approx(rise + 120.0).margin(0.01));
  const double top = 1.0 - std::exp(-300.0 / wire.tau);
  CHECK(tracker.best().longest() ==
        Approx(300.0 + wire.tau * std::log(top / 0.7) - rise).margin(0.02));
}

TEST_CASE("a limit passed both ways inside one time step is found both times") {
  // The braid goes on warming after the current ends and turns while the conductor cools.
  const scenario::Wire wire{copper(),
                            2.0525e-3,
                            {{"rubber", solid("rubber", 0.15, 1150, 1700), 1.19e-3},
                             {"braid", solid("braid", 0.07, 600, 1350), 0.5e-3}}};
  auto rig = long_wire(wire, still_air(20));
  rig.hold(150, 12).rest(60);
  rig.part_probe(0.5, "braid");
  rig.sheet.output.every = 0.02;
  const auto dense = run(rig.sheet);
  double peak = 0.0;
  for (const auto& row : dense.rows) {
    peak = std::max(peak, row.probe[2]);
  }
  const double level = peak - 2e-3;
  watch::Exceedance rows(level, 0.0);  // by straight lines between rows 0.02 s apart
  for (const auto& row : dense.rows) {
    rows.add(row.time, row.probe[2]);
  }
  rig.sheet.output.every = 600.0;
  rig.sheet.watch = {limit("braid", level - zero_celsius)};
  const auto marched = run(rig.sheet);
  const double up = when(marched, Kind::rises_above).value();
  const double down = when(marched, Kind::falls_below).value();
  CHECK(up == Approx(rows.first_above().value()).margin(0.01));
  CHECK(down == Approx(rows.last_above().value()).margin(0.01));
  CHECK(up > 12.0);
  CHECK(std::none_of(marched.ends.begin(), marched.ends.end(),
                     [&](double end) { return end > up && end < down; }));
}

TEST_CASE("the supply's ceiling is met at its time, and the march goes on from there") {
  Adiabatic wire;
  wire.rig.hold(100, 15.6);
  wire.rig.sheet.supply.voltage_limit = 100.0 * wire.ohm(60.0);  // of one metre
  const auto marched = run(wire.rig.sheet);
  const double met = when(marched, Kind::ceiling_met).value();
  const double exact = wire.law.seconds(100, 30, 60);
  CHECK(met == Approx(exact).margin(1e-3));
  CHECK(has_row_at(marched, met));
  CHECK(std::count(marched.ends.begin(), marched.ends.end(), met) == 1);
  CHECK_FALSE(when(marched, Kind::ceiling_left).has_value());
  // Then V^2 / R: (T + beta) dT = V^2 / (R20 / 254.5) / C' dt, so (T + beta)^2 is linear in time.
  const double volt = *wire.rig.sheet.supply.voltage_limit;
  const double slope = 2.0 * volt * volt / (wire.ohm(20.0) / 254.5) / (3.46e6 * no_14_area);
  const double last = std::sqrt(294.5 * 294.5 + slope * (15.6 - exact)) - 234.5;
  CHECK(marched.last_celsius() == Approx(last).margin(0.01));
}

TEST_CASE("the supply's ceiling is left where the wire has cooled enough") {
  // Linear film, constant current while below: cooled by colder air from 900 s on.
  Lumped wire;
  wire.rig = long_wire({metal(401, 8960, 385, 1.7241e-8, 1.0 / 254.5), no_14, {}},
                       film(film_loss / (pi * no_14), 0.0, 20.0));
  wire.rig.sheet.output = {"", 600.0, 0.0, 5e-3, 12, 1e-5};
  wire.rig.sheet.surroundings[0].air = {{0.0, 293.15, 0.0}, {900.0, 268.15, 0.0}};
  wire.rig.hold(25, 1800);
  const double ceiling = 25.0 * 1.7241e-8 / no_14_area * (38.0 + 234.5) / 254.5;
  wire.rig.sheet.supply.voltage_limit = ceiling;
  const auto marched = run(wire.rig.sheet);
  const double met = when(marched, Kind::ceiling_met).value();
  const double left = when(marched, Kind::ceiling_left).value();
  CHECK(met < 900.0);
  CHECK(left > 900.0);
  for (const double time : {met, left}) {
    const auto& row = marched.at(time);
    CHECK(row.probe[0] - zero_celsius == Approx(38.0).margin(1e-6));
    CHECK(row.electrical.supply_voltage == Approx(ceiling).epsilon(1e-9));
  }
  CHECK(marched.last().electrical.current == 25.0);
  CHECK(marched.worst_gap() < 1e-11);
}

TEST_CASE("a step that asks for too much meets the ceiling where it begins") {
  Adiabatic wire;
  wire.rig.rest(10).hold(100, 1.0);
  wire.rig.sheet.supply.voltage_limit = 50.0 * wire.ohm(30.0);
  const auto marched = run(wire.rig.sheet);
  CHECK(when(marched, Kind::ceiling_met).value() == 10.0);
  CHECK(marched.rows.size() == 3);  // and no row of its own: the step begins with one
}

TEST_CASE("the conductor melts at its time") {
  Adiabatic wire;
  auto melting = metal(401, 3.46e6 / 385.0, 385, 1.7241e-8, 1.0 / 254.5);
  melting->melting_point = 300.0 + zero_celsius;
  wire.rig.sheet.wire.metal = melting;
  wire.rig.hold(100, 60);
  const auto marched = run(wire.rig.sheet);
  const double exact = wire.law.seconds(100, 30, 300);
  CHECK(when(marched, Kind::conductor_melts).value() == Approx(exact).margin(0.01));
  CHECK(when(marched, Kind::conductor_parts).value() == when(marched, Kind::conductor_melts));
}

TEST_CASE("watch items add rows and change no other") {
  const scenario::Wire wire{copper(),
                            2.0525e-3,
                            {{"rubber", solid("rubber", 0.15, 1150, 1700), 1.19e-3},
                             {"braid", solid("braid", 0.07, 600, 1350), 0.5e-3}}};
  auto rig = long_wire(wire, still_air(11));
  rig.sheet.surroundings[0].air = {{0.0, 284.15, 0.0}, {700.0, 284.15, 0.25}, {940.0, 287.15, 0.0}};
  rig.hold(42, 1320).rest(600);
  const auto plain = run(rig.sheet);
  for (const double celsius : {30.0, 45.0, 60.0}) {
    for (const char* part : {"rubber", "braid", "surface", "no such part"}) {
      rig.sheet.watch.push_back(limit(part, celsius));
    }
  }
  const auto watched = run(rig.sheet);
  CHECK(watched.rows.size() > plain.rows.size() + 8);
  CHECK(watched.ends == plain.ends);
  auto row = watched.rows.begin();
  for (const auto& wanted : plain.rows) {
    row = std::find_if(row, watched.rows.end(),
                       [&](const auto& one) { return one.time == wanted.time; });
    REQUIRE(row != watched.rows.end());
    CHECK(std::memcmp(row->temperature.data(), wanted.temperature.data(),
                      wanted.temperature.size() * sizeof(double)) == 0);
    CHECK(row->ledger.made == wanted.ledger.made);
    CHECK(row->ledger.lost == wanted.ledger.lost);
  }
  CHECK(std::is_sorted(watched.rows.begin(), watched.rows.end(),
                       [](const auto& a, const auto& b) { return a.time < b.time; }));
}

TEST_CASE("what rests on its limit is not above it, nor does round-off pass it") {
  auto rig = long_wire({copper(), no_14, {{"rubber", solid("rubber", 0.15, 1150, 1700), 1.2e-3}}},
                       film(10.0, 0.0, 20.0));
  rig.rest(36000).hold(5, 3600);
  rig.sheet.watch = {limit("conductor", 20.0), limit("surface", 20.0)};
  const auto marched = run(rig.sheet);
  // The surface follows as heat spreads: 1.2 mm squared over a diffusivity of 7.7e-8 m2/s is 19 s.
  CHECK(when(marched, Kind::rises_above, 0, 0).value() == Approx(36000.0).margin(0.01));
  CHECK(when(marched, Kind::rises_above, 0, 1).value() == Approx(36000.0).margin(19.0));
  CHECK(when(marched, Kind::rises_above, 0, 1).value() > 36000.0);
  CHECK_FALSE(when(marched, Kind::falls_below).has_value());
}

TEST_CASE("every end of a step and every change of the air is the end of a time step") {
  auto rig = long_wire({copper(), no_14, {}}, still_air(11));
  rig.sheet.surroundings[0].air = {
      {0.0, 284.15, 0.0}, {70.1, 284.15, 0.25}, {333.3, 287.15, 0.0}, {1000.0 / 3.0, 290.0, 0.0}};
  rig.hold(20, 100.7).rest(0.3).hold(25, 300.9);
  const auto marched = run(rig.sheet);
  for (const double end : {70.1, 100.7, 100.7 + 0.3, 333.3, 1000.0 / 3.0, 100.7 + 0.3 + 300.9}) {
    CAPTURE(end);
    CHECK(std::count(marched.ends.begin(), marched.ends.end(), end) == 1);
  }
}

TEST_CASE("a wire that cools as an exponential settles when its formula says") {
  // From 40 K; formulas and figures as in tests/unit/watch_settling.test.cpp. The film makes tau.
  for (const double tau : {600.0, 3600.0}) {
    auto rig = long_wire({copper(), no_14, {}},
                         film(8960.0 * 385.0 * no_14_area / tau / (pi * no_14), 0.0, 20.0));
    rig.start(60).rest(20000);
    rig.sheet.output.every = 20000.0;
    rig.sheet.output.accuracy = 1e-6;  // a slope of 1 K/h is 0.3 mK in a second
    const auto marched = run(rig.sheet);
    CAPTURE(tau);
    CHECK(when(marched, Kind::settled_by_rate).value() ==
          Approx(tau * std::log(40.0 * 3600.0 / tau)).margin(0.01));
    CHECK(when(marched, Kind::settled_by_hour).value() ==
          Approx(tau * std::log(40.0 * (std::exp(3600.0 / tau) - 1.0))).margin(0.01));
  }
}
