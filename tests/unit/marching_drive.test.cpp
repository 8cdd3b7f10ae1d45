// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <memory>

#include "grid/grid.hpp"
#include "marching/network.hpp"
#include "marching/stepper.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

scenario::Wire no_12() {
  return {copper(), 2.0525e-3, {}};
}
constexpr double ohm_per_metre = 5.211e-3;  // No. 12 at 20 degC (NBS Circular 31, from memory)

Rig metre() {
  Rig rig(no_12(), film(10.0, 0.3, 20.0));
  rig.insulated_end().piece("wire", 1.0).insulated_end();
  rig.conductor_probe(0.5);
  return rig;
}

}  // namespace

TEST_CASE("volts over the wire follow its resistance") {
  auto rig = metre();
  rig.hold(30, 3600);
  const auto marched = run(rig.sheet);
  CHECK(marched.rows.front().electrical.wire_voltage == Approx(30.0 * ohm_per_metre).epsilon(1e-3));
  const double warm = marched.last_celsius();
  CHECK(marched.last().electrical.wire_voltage ==
        Approx(30.0 * ohm_per_metre * (1.0 + 0.00393 * (warm - 20.0))).epsilon(1e-3));
}

TEST_CASE("the supply's ceiling cuts the current, not the volts") {
  auto rig = metre();
  rig.sheet.supply.voltage_limit = 30.0 * ohm_per_metre;  // 30 A cold, less warm
  rig.hold(20, 60).hold(40, 3600);
  const auto marched = run(rig.sheet);
  CHECK(marched.at(60.0).electrical.current == 20.0);
  const auto& last = marched.last().electrical;
  CHECK(last.asked == 40.0);
  CHECK(last.supply_voltage == Approx(30.0 * ohm_per_metre).epsilon(1e-9));
  CHECK(last.current ==
        Approx(30.0 / (1.0 + 0.00393 * (marched.last_celsius() - 20.0))).epsilon(1e-3));
}

TEST_CASE("a fed voltage drives what the loop lets through") {
  auto rig = metre();
  rig.sheet.supply.mode = scenario::Supply::Mode::voltage;
  rig.feed(0.1, 600);
  const auto marched = run(rig.sheet);
  for (const auto& row : marched.rows) {
    CHECK(row.electrical.supply_voltage == Approx(0.1).epsilon(1e-12));
    CHECK(row.electrical.asked == row.electrical.current);
  }
  CHECK(marched.rows.front().electrical.current == Approx(0.1 / ohm_per_metre).epsilon(1e-3));
}

TEST_CASE("leads and contacts stand in the loop and not in the wire's volts") {
  Rig rig(no_12(), film(10.0, 0.3, 20.0));
  rig.sheet.supply.lead = {2.4, 16e-6, 1e-3, copper()};
  rig.piece("A", 0.0, scenario::Lug{0.35e-3, 0.02, 5.0, 1e-3, true})
      .piece("wire", 5.3)
      .piece("B", 0.0, scenario::Lug{0.35e-3, 0.02, 5.0, 1e-3, true});
  rig.hold(42, 1.0);
  const auto first = run(rig.sheet).rows.front().electrical;
  const double wire = 5.3 * ohm_per_metre;
  const double loop = wire + 0.7e-3 + 1.7241e-8 * 2.4 / 16e-6;
  CHECK(first.wire_voltage == Approx(42.0 * wire).epsilon(1e-3));
  CHECK(first.supply_voltage == Approx(42.0 * loop).epsilon(1e-3));
}

TEST_CASE("leads no lug joins to are in the loop all the same") {
  auto rig = metre();
  rig.sheet.supply.lead = {2.4, 16e-6, 1e-3, copper()};
  rig.hold(42, 1.0);
  const auto first = run(rig.sheet).rows.front().electrical;
  CHECK(first.supply_voltage - first.wire_voltage ==
        Approx(42.0 * 1.7241e-8 * 2.4 / 16e-6).epsilon(1e-9));
}

TEST_CASE("a current that rises evenly makes heat as its square does") {
  // Bare copper without loss and with even resistivity: C T' = R (slope t)^2, so the rise after t
  // is R slope^2 t^3 / (3 C), which a method of order 3 meets to a few parts in a thousand in one
  // step.
  auto rig = metre();
  auto flat = *rig.sheet.wire.metal;
  flat.resistivity = {{300.0}, {1.7241e-8}};
  rig.sheet.wire.metal = std::make_shared<const materials::Material>(flat);
  rig.sheet.surroundings.front().film->coefficient = 0.0;
  rig.sheet.surroundings.front().film->emissivity = 0.0;
  const auto grid = grid::build(rig.sheet);
  marching::HeatNetwork network(grid, rig.sheet);
  marching::Stepper stepper(network, rig.sheet.start_temperature);
  constexpr double amperes_per_second = 5.0;
  constexpr double from = 2.0;
  network.set_drive({scenario::Step::Kind::hold_current, 0.0, amperes_per_second, from});
  const double capacity_times_ohm =
      flat.density * flat.heat_capacity.value.front() / flat.resistivity.value.front();
  const double area = 0.25 * 3.14159265358979 * 2.0525e-3 * 2.0525e-3;
  double time = from;
  for (int i = 0; i < 10; ++i) {
    stepper.attempt(time, 1.0);
    stepper.advance(1.0);
    time += 1.0;
  }
  const double rise =
      std::pow(amperes_per_second, 2) * 1000.0 / (3.0 * capacity_times_ohm * area * area);
  CHECK(stepper.state()[5] - rig.sheet.start_temperature == Approx(rise).epsilon(1e-9));
}
