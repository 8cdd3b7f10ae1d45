// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "no_12.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

}  // namespace

TEST_CASE("heat capacity per metre") {
  // Copper 11.3, rubber 23.7, braid 6.3, all 41.3 J/m/K (reference figures of a small independent
  // model, not measurements; rounded to 0.1).
  const auto rig = long_wire(no_12(), still_air(barn_air));
  const auto grid = grid::build(rig.sheet);
  const marching::HeatNetwork network(grid, rig.sheet);
  double copper_part = 0.0;
  double rubber = 0.0;
  double braid = 0.0;
  for (std::size_t c = 0; c < grid.cells; ++c) {
    const auto& part = grid.media[grid.medium[c]].part;
    const double capacity = grid.volume[c] > 0.0 ? network.capacity()[c] : 0.0;
    (part == "conductor" ? copper_part : part == "rubber" ? rubber : braid) += capacity;
  }
  CHECK(copper_part == Approx(11.3).margin(0.05));
  CHECK(rubber == Approx(23.7).margin(0.05));
  CHECK(braid == Approx(6.3).margin(0.05));
  CHECK(copper_part + rubber + braid == Approx(41.3).margin(0.1));
}

TEST_CASE("the five rises of the staircase settle in six to ten minutes") {
  // Within 1 K of the end of each 22 min step after 6.3/6.6/7.7/9.0/10.3 min (reference figures, as
  // above; 4 %).
  auto rig = long_wire(no_12(), still_air(barn_air));
  for (const double current : {14.0, 22.0, 31.0, 42.0, 55.0}) {
    rig.hold(current, 1320);
  }
  rig.sheet.output.every = 3.0;
  const auto marched = run(rig.sheet);
  const double wanted[] = {6.3, 6.6, 7.7, 9.0, 10.3};
  for (int i = 0; i < 5; ++i) {
    const double begin = 1320.0 * i;
    const double end = marched.celsius(begin + 1320.0);
    double minute = 0.0;
    for (const auto& row : marched.rows) {
      if (row.time > begin && row.time <= begin + 1320.0 &&
          std::abs(row.probe[0] - zero_celsius - end) > 1.0) {
        minute = (row.time - begin) / 60.0;
      }
    }
    CHECK(minute == Approx(wanted[i]).epsilon(0.04));
  }
}

TEST_CASE("the first seconds heat the copper alone") {
  // 42 A: 0.812 K/s, I^2 R20 / C (reference figure, as above; it takes the resistance at 20 degC,
  // so the wire starts there; 0.5 %). Nothing is lost in the check, and there is no covering.
  auto rig = long_wire(no_12_bare(0.9), film(0.0, 0.0, 20.0));
  rig.hold(42, 1);
  rig.sheet.output.every = 0.1;
  CHECK((run(rig.sheet).celsius(0.1) - 20.0) / 0.1 == Approx(0.812).epsilon(0.005));
}

TEST_CASE("a knob's porcelain holds 71 J/K and follows within seven and a half minutes") {
  // 68 g of 1050 J/kg/K; with 0.16 W/K to air and wood 446 s (reference figures, as above; lumped,
  // so its ceramic conducts well here, and all of the loss goes through its own surface; 1 %).
  scenario::Knob knob;
  knob.body = solid("porcelain", 150.0, 2400.0, 1050.0);
  knob.mass = 0.068;
  knob.height = 0.04;
  knob.covers = 0.8;
  knob.grip_conductance = 1e-6;
  const double section = knob.mass / 2400.0 / knob.height;
  const double area = section + 2.0 * std::sqrt(section * std::numbers::pi) * knob.height;
  Rig rig(no_12_bare(0.9), film(0.16 / area, 0.0, 20.0));
  rig.insulated_end().piece("K1", 0.04, knob).insulated_end();
  rig.part_probe(0.02, "ceramic").start(60.0).rest(892.0);
  rig.sheet.output.every = 446.0;
  const auto marched = run(rig.sheet);
  CHECK(knob.mass * 1050.0 == Approx(71.0).epsilon(0.01));
  CHECK((marched.celsius(446.0) - 20.0) / 40.0 == Approx(std::exp(-1.0)).epsilon(0.01));
  CHECK((marched.celsius(892.0) - 20.0) / 40.0 == Approx(std::exp(-2.0)).epsilon(0.02));
}

TEST_CASE("the time constant is the whole section's, not the copper's") {
  // C/G: 228 s at 22 A, 196 s at 42 A, G the heat made over the rise; 54 s for the copper alone at
  // 42 A (reference figures, as above; 4 %).
  for (const auto& [current, tau] : {std::pair{22.0, 228.0}, {42.0, 196.0}}) {
    auto rig = long_wire(no_12(), still_air(barn_air));
    rig.hold(current, 7200).hold(1.02 * current, 7200);
    rig.sheet.output.every = 2.0;
    rig.sheet.output.accuracy = 1e-3;
    const auto marched = run(rig.sheet);
    const double from = marched.celsius(7200);
    const double to = marched.celsius(14400);
    const double conductance = marched.at(7200).power / (from - barn_air);  // over 1 m
    CHECK(41.3 / conductance == Approx(tau).epsilon(0.04));
    // The march answers a small change within 1/e in the time constant of the loss's slope, which
    // is steeper than its chord: shorter than C/G, and two or three times the copper's.
    double found = 0.0;
    for (const auto& row : marched.rows) {
      if (row.time > 7200.0 && row.probe[0] - zero_celsius < to - (to - from) * std::exp(-1.0)) {
        found = row.time - 7200.0;
      }
    }
    CHECK(found < tau);
    CHECK(found > 2.0 * 54.0);
  }
}
