// SPDX-License-Identifier: MIT
// Closed bays.
#include <catch2/catch.hpp>
#include <cmath>

#include "even_steps.hpp"
#include "every_piece.hpp"
#include "has_order.hpp"
#include "no_12.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

/// Go and return between two faces 360 mm wide and 90 mm apart, U 1.9 W/m2/K: the half of one wire,
/// per metre.
constexpr double faces = 0.5 * 2.0 * 0.36;                   ///< m2/m
constexpr double inner_surface = 0.5 * 2.0 * (0.36 + 0.09);  ///< m2/m
constexpr double air_capacity = 0.5 * 0.36 * 0.09 * 1245.0;  ///< J/K/m, air at 11 degC

Rig in_bay(const scenario::Bay& bay) {
  auto around = still_air(barn_air);
  around.bay = 0;
  auto rig = long_wire(no_12(), around);
  rig.sheet.bays = {bay};
  rig.part_probe(0.5, "bay-air").part_probe(0.5, "bay-walls");
  return rig;
}

Marched settled(Rig rig, double current) {
  rig.hold(current, 4e5);
  rig.sheet.output.every = 4e5;
  return run(rig.sheet);
}

}  // namespace

TEST_CASE("a bay of one node, go and return: conductor at three currents") {
  // 47.0, 79.4, 138.3 degC in the bay against 38.6, 61.9, 102.0 in the open (reference figures of
  // the small independent model of no_12.hpp, which has one node for air and walls and loses its
  // heat through the two faces; they round to 0.1 K). A film without resistance makes one node of
  // two.
  const double current[] = {31, 42, 55};
  const double conductor[] = {47.0, 79.4, 138.3};
  for (int i = 0; i < 3; ++i) {
    const auto marched = settled(in_bay({air_capacity, 100.0, 1e6, faces * 1.9}), current[i]);
    INFO(current[i] << " A: " << marched.last_celsius(0));
    CHECK(marched.last_celsius(0) == Approx(conductor[i]).margin(0.01 * conductor[i]));
    CHECK(marched.last_celsius(2) == Approx(marched.last_celsius(3)).margin(0.01));
  }
}

TEST_CASE("a bay of two nodes: convection warms the air, radiation the walls") {
  // The same balance solved apart from this program, by iteration: conductor, air, walls (computed
  // here; inner film 2.5 W/m2/K, U less the standard 0.13 m2 K/W of an inner surface).
  struct Case {
    double current, conductor, air, walls;
  };
  for (const Case& c : {Case{31, 47.074, 20.076, 17.100},
                        {42, 79.616, 29.436, 23.490},
                        {55, 137.881, 47.601, 36.393}}) {
    const auto marched = settled(
        in_bay({air_capacity, 100.0, inner_surface * 2.5, faces / (1.0 / 1.9 - 0.13)}), c.current);
    CHECK(marched.last_celsius(0) == Approx(c.conductor).margin(0.3));
    CHECK(marched.last_celsius(2) == Approx(c.air).margin(0.1));
    CHECK(marched.last_celsius(3) == Approx(c.walls).margin(0.1));
    // What is made leaves through the walls.
    CHECK(marched.last().power ==
          Approx(faces / (1.0 / 1.9 - 0.13) * (marched.last_celsius(3) - barn_air)).epsilon(1e-6));
  }
}

TEST_CASE("walls that hold heat warm at their own pace") {
  // A heavy lining and a wire that makes 5 W/m whatever its temperature: at first all of it goes
  // into the walls, dT/dt = q / C, as the wire and the air are light beside them.
  auto wire = no_12(0.0);
  auto around = still_air(barn_air);
  around.bay = 0;
  auto rig = long_wire(wire, around);
  const double walls = 2e5;
  rig.sheet.bays = {{air_capacity, walls, inner_surface * 2.5, 1e-9}};
  rig.part_probe(0.5, "bay-walls");
  const double current = std::sqrt(5.0 / no_12_ohm);
  rig.hold(current, 36000);
  rig.sheet.output.every = 3600.0;
  const auto marched = run(rig.sheet);
  CHECK((marched.celsius(36000, 2) - marched.celsius(7200, 2)) / 28800.0 ==
        Approx(marched.last().power / (walls + air_capacity + 41.3)).epsilon(2e-3));
}

TEST_CASE("the ledger closes with every kind of piece in a bay") {
  auto around = still_air(barn_air);
  around.bay = 0;
  around.air.front().temperature_rate = 1e-3;
  auto rig = every_piece(copper(), around, Gaps::of_air);
  rig.sheet.bays = {{40.0, 2e3, 2.0, 1.5}};
  rig.hold(50, 300).rest(100).hold(70, 200);
  CHECK(run(rig.sheet).worst_gap() < 1e-12);
}

TEST_CASE("order 3 in time: a wire in a bay") {
  auto rig = in_bay({air_capacity, 2e3, inner_surface * 2.5, faces / (1.0 / 1.9 - 0.13)});
  rig.hold(42, 1000);
  CHECK_THAT(EvenSteps{}.halve(rig.sheet, 40, 3).anywhere, HasOrder(3.0));
}
