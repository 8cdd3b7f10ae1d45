// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "exact_solutions.hpp"
#include "no_12.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

Marched spliced(const scenario::Wire& wire, const scenario::Surroundings& around, double grid,
                double current) {
  Rig rig(wire, around);
  rig.insulated_end()
      .piece("a", 1.0)
      .piece("S1", 0.06, scenario::Splice{1.6e-3, {}})
      .piece("b", 1.0)
      .insulated_end();
  rig.conductor_probe(1.03).conductor_probe(0.05).hold(current, 1e6);
  rig.sheet.output.every = 1e6;
  rig.sheet.output.grid = grid;
  return run(rig.sheet);
}

struct EndHeld {
  double far, at_100_mm;  // K of rise
  double sink;            // W out of the held end
};

EndHeld end_held(const scenario::Wire& wire, const scenario::Surroundings& around) {
  Rig rig(wire, around);
  rig.held_end(barn_air).piece("wire", 2.0).insulated_end();
  rig.conductor_probe(0.1).conductor_probe(1.9).hold(42, 1e6);
  rig.sheet.output.every = 1e6;
  const auto grid = grid::build(rig.sheet);
  const auto marched = run(rig.sheet);
  const double first = marched.last().temperature[0] - zero_celsius - barn_air;
  return {marched.last_celsius(1) - barn_air, marched.last_celsius(0) - barn_air,
          390.0 * no_12_area * first / grid.station_centre[0]};
}

}  // namespace

TEST_CASE("an end held at the air's temperature draws the heat of a fin") {
  // 42 A: lambda sqrt(k A / G) = 78.4 mm, 72 % of the rise at 100 mm, sink power
  // sqrt(k A G) dT = 0.84 W (reference figures of a small independent model, not measurements; 4
  // %). They take G as it is far from the end, 0.210 W/m/K for a rise of 50.9 K, and so does the
  // check.
  auto wire = no_12(0.0);
  wire.metal = metal(390.0, 8890.0, 385.0, 50.9 * 0.210 / (42.0 * 42.0) * no_12_area, 0.0);
  const auto constant = end_held(wire, loses(0.210));
  CHECK(constant.far == Approx(50.9).epsilon(1e-3));
  CHECK(constant.at_100_mm / constant.far == Approx(0.72).epsilon(0.04));
  CHECK(constant.sink == Approx(0.84).epsilon(0.04));
  // G itself: heat made over the rise.
  const Steady far = steady(no_12(), still_air(barn_air), 42);
  const double made = 42.0 * 42.0 * no_12_ohm * (1.0 + 0.00393 * (far.conductor - 20.0));
  const double conductance = made / (far.conductor - barn_air);
  CHECK(std::sqrt(390.0 * no_12_area / conductance) == Approx(78.4e-3).epsilon(0.04));
  // In still air the loss weakens towards the cold end, and so does the sink.
  const auto real = end_held(no_12(), still_air(barn_air));
  CHECK(real.at_100_mm / real.far == Approx(0.72).epsilon(0.04));
  CHECK(real.sink < constant.sink);
  CHECK(real.sink == Approx(constant.sink).epsilon(0.1));
}

TEST_CASE("a buried patch in an open run is as hot as it is long") {
  // 31 A, G 0.063 W/m/K: 0.05/0.1/0.2/0.3/0.6/1.0/2.0 m give 44.8/51.5/65.4/78.4/104.7/117.8/122.4
  // degC (reference figures, as above; 2 K or 4 % of the rise).
  const double length[] = {0.05, 0.1, 0.2, 0.3, 0.6, 1.0, 2.0};
  const double wanted[] = {44.8, 51.5, 65.4, 78.4, 104.7, 117.8, 122.4};
  for (int i = 0; i < 7; ++i) {
    Rig rig(no_12(), still_air(barn_air));
    rig.sheet.surroundings.push_back(loses(0.063));
    rig.insulated_end()
        .piece("a", 1.0)
        .piece("patch", length[i], scenario::Open{}, 1)
        .piece("b", 1.0)
        .insulated_end();
    rig.conductor_probe(1.0 + 0.5 * length[i]).hold(31, 1e6);
    rig.sheet.output.every = 1e6;
    const double found = run(rig.sheet).last_celsius();
    INFO(length[i] << " m: " << found);
    CHECK(found == Approx(wanted[i]).margin(stated_tolerance(wanted[i])));
  }
}

TEST_CASE("a hot joint by the wire alone") {
  // 1.6 mohm at 31 A, 2 sqrt(k A G) = 0.0317 W/K: at most +58.7 K over 38.6 if it were a point
  // (reference figures, as above); spread over 60 mm it is less. The grid does not move it: 10 mm
  // and 5 mm agree to 0.4 K.
  const double fine = spliced(no_12(), still_air(barn_air), 5e-3, 31).last_celsius();
  const double coarse = spliced(no_12(), still_air(barn_air), 10e-3, 31).last_celsius();
  CHECK(std::abs(fine - coarse) < 0.4);
  CHECK(fine < 38.6 + 58.7);
  CHECK(fine > 38.6 + 30.0);
}

TEST_CASE("a hot joint in a linear loss is the fin heated over a stretch") {
  // JointInLongFin, resistance that does not change with temperature; 0.5 %.
  const auto wire = no_12(0.0);
  const auto marched = spliced(wire, loses(0.195), 5e-3, 31);
  const JointInLongFin exact{31.0 * 31.0 * 1.6e-3, 0.06, 390.0 * no_12_area, 0.195};
  CHECK(marched.last_celsius(0) - marched.last_celsius(1) ==
        Approx(exact.peak_rise()).epsilon(0.005));
}
