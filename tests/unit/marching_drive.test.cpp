// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

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
