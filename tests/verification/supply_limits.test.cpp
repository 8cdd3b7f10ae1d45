// SPDX-License-Identifier: MIT
// What a supply can give, and what becomes of the wire at the most it gives.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "exact_solutions.hpp"
#include "no_12.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;
using Kind = marching::Event::Kind;

constexpr double pi = std::numbers::pi;
const double area = 0.25 * pi * no_12_diameter * no_12_diameter;

/// A metre of bare No. 12 that loses nothing; 20 degC at first.
Rig without_loss() {
  auto rig = long_wire(no_12_bare(0.9), film(0.0, 0.0, 20.0));
  rig.sheet.output.every = 5.0;
  rig.sheet.output.accuracy = 1e-4;
  return rig;
}
double ohm_at(double celsius) {
  return 1.7241e-8 / area * (1.0 + 0.00393 * (celsius - 20.0));
}
const AdiabaticHeating law{8890.0 * 385.0, 1.7241e-8, 1.0 / 0.00393 - 20.0, area};

std::optional<double> when(const Marched& marched, Kind kind) {
  for (const auto& event : marched.events) {
    if (event.kind == kind) {
      return event.time;
    }
  }
  return std::nullopt;
}

}  // namespace

TEST_CASE("a power limit is met when the wire's resistance says so") {
  auto rig = without_loss();
  rig.hold(100, 60);
  rig.sheet.supply.power_limit = 100.0 * 100.0 * ohm_at(60.0);
  const auto marched = run(rig.sheet);
  CHECK(when(marched, Kind::ceiling_met).value() == Approx(law.seconds(100, 20, 60)).margin(2e-3));
  const auto& last = marched.last().electrical;
  CHECK(last.asked == 100.0);
  CHECK(last.current * last.supply_voltage == Approx(*rig.sheet.supply.power_limit).epsilon(1e-9));
  CHECK(last.current ==
        Approx(100.0 * std::sqrt(ohm_at(60.0) / ohm_at(marched.last_celsius()))).epsilon(1e-6));
}

TEST_CASE("of two limits the nearer one counts") {
  auto rig = without_loss();
  rig.hold(100, 60);
  rig.sheet.supply.power_limit = 100.0 * 100.0 * ohm_at(60.0);
  rig.sheet.supply.voltage_limit = 100.0 * ohm_at(40.0);
  const auto marched = run(rig.sheet);
  CHECK(when(marched, Kind::ceiling_met).value() == Approx(law.seconds(100, 20, 40)).margin(2e-3));
  CHECK(marched.last().electrical.supply_voltage ==
        Approx(*rig.sheet.supply.voltage_limit).epsilon(1e-9));
}

TEST_CASE("a fed voltage stands behind the inner resistance") {
  // I = E / (R + Ri), at the terminals E - I Ri.
  auto rig = without_loss();
  rig.sheet.supply.inner_resistance = 10e-3;
  rig.feed(0.5, 30);
  for (const auto& row : run(rig.sheet).rows) {
    const auto& e = row.electrical;
    CHECK(e.current == Approx(0.5 / (ohm_at(row.probe[0] - zero_celsius) + 10e-3)).epsilon(1e-6));
    CHECK(e.supply_voltage == Approx(0.5 - 10e-3 * e.current).epsilon(1e-9));
    CHECK(e.supply_voltage == Approx(e.loop_resistance * e.current).epsilon(1e-12));
  }
}

TEST_CASE("an inner resistance takes of the voltage limit and not of a current below it") {
  auto rig = without_loss();
  rig.sheet.supply.inner_resistance = 5e-3;
  rig.sheet.supply.voltage_limit = 50.0 * (ohm_at(40.0) + 5e-3);
  rig.sheet.output.accuracy = 0.01;  // K, so that the rows tell the two sides of the instant apart
  rig.hold(50, 120);
  const auto marched = run(rig.sheet);
  CHECK(when(marched, Kind::ceiling_met).value() == Approx(law.seconds(50, 20, 40)).margin(5e-3));
  for (const auto& row : marched.rows) {
    if (row.time < law.seconds(50, 20, 40)) {
      CHECK(row.electrical.current == 50.0);
    }
  }
}

TEST_CASE("a supply of 2.2 V holds 42 A and 55 A on the barn's wire, and 55.1 A of 70") {
  // 5.3 m of No. 12, leads 2.4 m of 16 mm2, 0.7 mohm of contacts: 1.351 V over the wire at 42 A; 55
  // A just held; 70 A asked, 55.1 got after 22 min (reference figures of a small independent model;
  // 1 %).
  Rig rig(no_12(), still_air(barn_air));
  rig.sheet.supply.lead = {2.4, 16e-6, 1.2e-3, copper()};
  rig.sheet.supply.voltage_limit = 2.2;
  const scenario::Lug lug{0.35e-3, 0.02, 5.0, 1e-3, true};
  rig.piece("A", 0.0, lug).piece("wire", 5.3).piece("B", 0.0, lug);
  rig.conductor_probe(2.65).hold(42, 1320).hold(55, 1320).hold(70, 1320);
  const auto marched = run(rig.sheet);
  CHECK(marched.at(1320).electrical.wire_voltage == Approx(1.351).epsilon(0.01));
  CHECK(marched.at(1320).electrical.current == 42.0);
  CHECK(marched.at(2640).electrical.current == Approx(55.0).epsilon(0.01));
  CHECK(marched.last().electrical.asked == 70.0);
  CHECK(marched.last().electrical.current == Approx(55.1).epsilon(0.01));
  CHECK(marched.last().electrical.supply_voltage == Approx(2.2).epsilon(1e-9));
}

TEST_CASE("300 A without loss brings No. 12 to its melting point in 10.3 s") {
  // From 11 degC, linear resistance, constant heat capacity; 12.2 kJ/m to the melting point and 6.0
  // kJ/m of fusion (reference figures, as above; 2 %, the heats 3 %).
  auto rig = long_wire(no_12_bare(0.9), film(0.0, 0.0, barn_air));
  auto melting = *rig.sheet.wire.metal;
  melting.melting_point = 1084.62 + zero_celsius;
  melting.heat_of_fusion = 205e3;
  rig.sheet.wire.metal = std::make_shared<const materials::Material>(melting);
  rig.hold(300, 20);
  rig.sheet.output.every = 1.0;
  const auto marched = run(rig.sheet);
  const double melts = when(marched, Kind::conductor_melts).value();
  const double parts = when(marched, Kind::conductor_parts).value();
  CHECK(melts == Approx(10.3).epsilon(0.02));
  CHECK(marched.at(melts).ledger.made == Approx(12.2e3).epsilon(0.03));
  CHECK(marched.at(parts).ledger.made - marched.at(melts).ledger.made ==
        Approx(6.0e3).epsilon(0.03));
}

TEST_CASE("bare wire in still air parts within a quarter of Preece's current") {
  // I = 10244 d^1.5, d in inches (seen): 235 A for No. 12, 166 A for No. 14 (25 %, as for a rule of
  // long standing). Resistivity 10.2e-8 ohm m at the melting point (Matula, from memory, moderately
  // sure), surface of oxidised copper.
  struct Case {
    double diameter, preece;
  };
  for (const Case& c : {Case{2.0525e-3, 235.0}, Case{1.62771e-3, 166.0}}) {
    CHECK(10244.0 * std::pow(c.diameter / 0.0254, 1.5) == Approx(c.preece).epsilon(0.01));
    for (const double part : {0.75, 1.25}) {
      auto rig = long_wire(no_12_bare(0.7), still_air(20));
      auto melting = *rig.sheet.wire.metal;
      melting.melting_point = 1084.62 + zero_celsius;
      melting.heat_of_fusion = 205e3;
      melting.resistivity = {{293.15, 473.15, 1357.77}, {1.7241e-8, 2.9437e-8, 10.2e-8}};
      rig.sheet.wire.metal = std::make_shared<const materials::Material>(melting);
      rig.sheet.wire.diameter = c.diameter;
      rig.hold(part * c.preece, 3600);
      const auto marched = run(rig.sheet);
      CAPTURE(c.preece, part, marched.last_celsius());
      CHECK(when(marched, Kind::conductor_parts).has_value() == (part > 1.0));
    }
  }
}
