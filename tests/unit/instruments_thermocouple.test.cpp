// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "instruments/thermocouple.hpp"

namespace {
using namespace ampstair::instruments;
}

TEST_CASE("behind a ramp a couple is late by its lag") {
  // Closed form: T - m lag (1 - exp(-t / lag)); 8 s behind 0.25 K/s makes 2.0 K.
  for (const double row : {1.0, 10.0, 60.0}) {
    ThermocoupleReading couple({8.0, 0.0});
    double shown = 0.0;
    double time = 0.0;
    for (; time <= 240.0; time += row) {
      shown = couple.add(time, 284.15 + 0.25 * time, 284.15);
    }
    time -= row;
    const double late = 284.15 + 0.25 * time - shown;
    CHECK(late == Approx(2.0 * (1.0 - std::exp(-time / 8.0))).epsilon(1e-9));
  }
}

TEST_CASE("after a jump a couple closes the gap by its time constant") {
  ThermocoupleReading couple({20.0, 0.0});
  couple.add(0.0, 300.0, 300.0);
  CHECK(couple.add(0.0, 400.0, 300.0) == 300.0);
  CHECK(400.0 - couple.add(20.0, 400.0, 300.0) == Approx(100.0 * std::exp(-1.0)).epsilon(1e-12));
  CHECK(400.0 - couple.add(60.0, 400.0, 300.0) == Approx(100.0 * std::exp(-3.0)).epsilon(1e-12));
}

TEST_CASE("leads draw off their part of the excess over the air") {
  ThermocoupleReading couple({0.0, 0.1});
  CHECK(couple.add(0.0, 373.15, 293.15) == Approx(365.15));
  CHECK(couple.add(5.0, 293.15, 293.15) == Approx(293.15));
}

TEST_CASE("tolerance class 1 of type K") {
  // IEC 60584-1 (from memory, sure): 1.5 K to 375 degC, 0.4 % above.
  CHECK(class_1_tolerance(373.15) == 1.5);
  CHECK(class_1_tolerance(273.15 + 600.0) == Approx(2.4));
}
