// SPDX-License-Identifier: MIT
// Joints that make heat of their own, whatever the current.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "no_12.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

/// Two metres with 60 mm of joint in the middle.
Rig jointed(const scenario::Wire& wire, const scenario::Splice& splice, double grid) {
  Rig rig(wire, still_air(barn_air));
  rig.insulated_end().piece("a", 1.0).piece("S", 0.06, splice).piece("b", 1.0).insulated_end();
  rig.conductor_probe(1.03).conductor_probe(0.2);
  rig.sheet.output.grid = grid;
  return rig;
}

scenario::Splice glowing(double watt) {
  scenario::Splice splice;
  splice.heat = watt;
  return splice;
}

}  // namespace

TEST_CASE("a joint given in watts is as hot as one whose resistance makes them") {
  // Resistance that does not change with temperature: 1.6 mohm at 31 A make 1.5376 W.
  scenario::Splice ohmic;
  ohmic.resistance = 1.6e-3;
  auto a = jointed(no_12(0.0), ohmic, 5e-3);
  auto b = jointed(no_12(0.0), glowing(31.0 * 31.0 * 1.6e-3), 5e-3);
  a.hold(31, 3600);
  b.hold(31, 3600);
  const auto one = run(a.sheet);
  const auto other = run(b.sheet);
  CHECK(one.last_celsius() == Approx(other.last_celsius()).margin(1e-6));
  CHECK(one.last().electrical.wire_voltage ==
        Approx(other.last().electrical.wire_voltage).epsilon(1e-9));
  CHECK(one.last().power == Approx(other.last().power).epsilon(1e-9));
  CHECK(other.worst_gap() < 1e-11);
}

TEST_CASE("a joint that glows makes its watts at any current, and none without") {
  auto rig = jointed(no_12(), glowing(10.0), 5e-3);
  rig.hold(15, 1200).hold(5, 1200).rest(3600);
  const auto marched = run(rig.sheet);
  for (const auto& row : marched.rows) {
    CHECK(row.electrical.joint_heat ==
          Approx(row.electrical.current > 0.0 ? 10.0 : 0.0).epsilon(1e-12));
  }
  const auto& e = marched.at(1200).electrical;
  CHECK(e.wire_voltage == Approx(15.0 * (e.loop_resistance + 10.0 / 225.0)).epsilon(1e-9));
  CHECK(marched.celsius(1200) > marched.celsius(1200, 1) + 100.0);
  CHECK(marched.last_celsius() == Approx(barn_air).margin(0.5));
  CHECK(marched.worst_gap() < 1e-11);
}

TEST_CASE("the watts of a joint do not depend on the grid") {
  auto fine = jointed(no_12(), glowing(5.0), 5e-3);
  auto coarse = jointed(no_12(), glowing(5.0), 10e-3);
  fine.hold(15, 3600);
  coarse.hold(15, 3600);
  CHECK(run(fine.sheet).last_celsius() == Approx(run(coarse.sheet).last_celsius()).margin(0.4));
}

TEST_CASE("a fed voltage feels a joint that glows as heat over current") {
  // V = R I + P / I; where the loop cannot give the joint its heat, it gets V^2 / (4 R).
  for (const double watt : {2.0, 1000.0}) {
    auto rig = jointed(no_12(), glowing(watt), 5e-3);
    rig.feed(0.5, 60);
    const auto marched = run(rig.sheet);
    for (const auto& row : marched.rows) {
      const auto& e = row.electrical;
      const double most = 0.25 * 0.25 / e.loop_resistance;
      CHECK(e.supply_voltage == Approx(0.5).epsilon(1e-9));
      CHECK(e.joint_heat == Approx(std::min(watt, most)).epsilon(1e-9));
      CHECK(e.current * e.supply_voltage ==
            Approx(e.current * e.current * e.loop_resistance + e.joint_heat).epsilon(1e-9));
    }
    CHECK(marched.worst_gap() < 1e-11);
  }
}
