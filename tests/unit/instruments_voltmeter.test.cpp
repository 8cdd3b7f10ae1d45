// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "instruments/voltmeter.hpp"

namespace {

using namespace ampstair::instruments;

// 5.3 m of No. 12 copper: 5.211 mohm/m at 20 degC (NBS Circular 31, from memory), 0.00393 /K (IEC
// 60028, from memory).
constexpr ResistanceLine run{5.3 * 5.211e-3, 0.00393};

}  // namespace

TEST_CASE("volts and amperes tell a wire's mean temperature") {
  // By hand: 1.3515 V / 42 A = 32.18 mohm, 1.1651 of the cold 27.62 mohm, so 62.0 degC.
  CHECK(mean_temperature(1.3515, 42.0, run) - 273.15 == Approx(62.0).margin(0.05));
  CHECK(mean_temperature(42.0 * run.cold, 42.0, run) == Approx(293.15).epsilon(1e-12));
  CHECK(std::isnan(mean_temperature(0.0, 0.0, run)));
}

TEST_CASE("half a per cent of the volts is a kelvin and a half") {
  // 0.5 % of R / (R20 alpha) at 62.0 degC: 0.005 * 1.165 / 0.00393 = 1.48 K (by hand).
  CHECK(mean_temperature_error(1.3515, 42.0, 0.005, run) == Approx(1.48).margin(0.02));
  CHECK(std::isnan(mean_temperature_error(1.0, 0.0, 0.005, run)));
}

TEST_CASE("four tenths of a milliohm in the taps look like warmth") {
  // 0.40 mohm / (27.62 mohm * 0.00393 /K) = 3.7 K (by hand).
  const double hot = 1.3515;
  CHECK(mean_temperature(hot + 42.0 * 0.4e-3, 42.0, run) - mean_temperature(hot, 42.0, run) ==
        Approx(3.7).margin(0.05));
}
