// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "no_12.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

/// Diameter of an AWG number, m: 0.127 mm x 92^((36 - n) / 39) (ASTM B258, from memory, very sure).
double diameter(int gauge) {
  return 0.127e-3 * std::pow(92.0, (36.0 - gauge) / 39.0);
}

/// Volts over one metre at one ampere and one temperature, which is ohm/m.
double ohm_per_metre(int gauge, double celsius) {
  auto rig = long_wire({copper(), diameter(gauge), {}}, film(10.0, 0.9, celsius));
  rig.hold(1, 1);
  return run(rig.sheet).rows.front().electrical.wire_voltage;
}

}  // namespace

TEST_CASE("resistance and gauge: Nos. 10, 12, 14 at 20 degC") {
  // 3.277 / 5.211 / 8.285 mohm/m (NBS Handbook 100 / Circular 31, from memory, very sure; 0.1 %).
  CHECK(ohm_per_metre(10, 20) == Approx(3.277e-3).epsilon(1e-3));
  CHECK(ohm_per_metre(12, 20) == Approx(5.211e-3).epsilon(1e-3));
  CHECK(ohm_per_metre(14, 20) == Approx(8.285e-3).epsilon(1e-3));
}

TEST_CASE("resistance at temperature") {
  // R(T)/R(20) = 1.0393 / 1.1572 / 1.2162 / 1.2751 / 1.5502 / 2.1004 at 30 / 60 / 75 / 90 / 160 /
  // 300 degC with 0.00393 /K (IEC 60028, from memory; recomputed; 1e-4).
  const double celsius[] = {30, 60, 75, 90, 160, 300};
  const double ratio[] = {1.0393, 1.1572, 1.2162, 1.2751, 1.5502, 2.1004};
  const double cold = ohm_per_metre(12, 20);
  for (int i = 0; i < 6; ++i) {
    CHECK(ohm_per_metre(12, celsius[i]) / cold == Approx(ratio[i]).margin(1e-4));
  }
  // 10.1 / 6.34 / 3.984 mohm/m at 75 degC (NEC chapter 9 table 8, from memory, very sure; 0.5 %).
  CHECK(ohm_per_metre(14, 75) == Approx(10.1e-3).epsilon(5e-3));
  CHECK(ohm_per_metre(12, 75) == Approx(6.34e-3).epsilon(5e-3));
  CHECK(ohm_per_metre(10, 75) == Approx(3.984e-3).epsilon(5e-3));
}

TEST_CASE("No. 14 taken for No. 12 shows") {
  // 31 A in the same covering: 58.8 degC in place of 38.6 (reference figures of a small independent
  // model, not measurements; 2 K or 4 % of the rise).
  auto wrong = no_12();
  wrong.diameter = diameter(14);
  CHECK(steady(wrong, still_air(barn_air), 31).conductor ==
        Approx(58.8).margin(stated_tolerance(58.8)));
  CHECK(steady(no_12(), still_air(barn_air), 31).conductor ==
        Approx(38.6).margin(stated_tolerance(38.6)));
}
