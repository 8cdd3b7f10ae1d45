// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "no_12.hpp"
#include "watch/dose.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

/// Hours at 50 degC that age the innermost rubber as the barn's staircase does, far from its ends
/// and supports.
double equivalent_hours(const Marched& marched, double activation_energy) {
  watch::ArrheniusDose dose(activation_energy, 50.0 + zero_celsius, 1e9);
  for (const auto& row : marched.rows) {
    dose.add(row.time, row.probe[0]);
  }
  return dose.equivalent() / 3600.0;
}

}  // namespace

TEST_CASE("the barn's staircase ages rubber by the hours stated") {
  // 31, 82 and 286 h at 90, 110 and 135 kJ/mol (reference figures of a small independent model, not
  // measurements). Half a kelvin at the 102 degC of the last step is worth E / (R T^2) of each: 4,
  // 5 and 6 %.
  auto rig = long_wire(no_12(), still_air(barn_air));
  for (const double current : {14.0, 22.0, 31.0, 42.0, 55.0}) {
    rig.hold(current, 22.0 * 60.0);
  }
  rig.sheet.output.every = 10.0;
  const auto marched = run(rig.sheet);
  CHECK(equivalent_hours(marched, 90e3) == Approx(31.0).epsilon(0.04));
  CHECK(equivalent_hours(marched, 110e3) == Approx(82.0).epsilon(0.05));
  CHECK(equivalent_hours(marched, 135e3) == Approx(286.0).epsilon(0.06));
}
