// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "heat/air.hpp"
#include "heat/constants.hpp"
#include "no_12.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

constexpr double outer_diameter = 5.4325e-3;  // m

}  // namespace

TEST_CASE("free convection and radiation together: conductor and surface at six currents") {
  // Churchill & Chu 1975 with grey radiation. Reference figures of a small independent model, not
  // measurements; the tolerance is 2 K or 4 % of the rise, and here the smaller of the two.
  const double current[] = {14, 22, 31, 42, 55, 70};
  const double conductor[] = {17.1, 25.2, 38.6, 61.9, 102.0, 172.3};
  const double surface[] = {15.8, 21.9, 31.7, 48.2, 75.4, 120.1};
  for (int i = 0; i < 6; ++i) {
    const Steady s = steady(no_12(), still_air(barn_air), current[i]);
    INFO(current[i] << " A: " << s.conductor << " and " << s.surface);
    CHECK(s.conductor ==
          Approx(conductor[i]).margin(std::min(2.0, 0.04 * (conductor[i] - barn_air))));
    CHECK(s.surface == Approx(surface[i]).margin(std::min(2.0, 0.04 * (surface[i] - barn_air))));
  }
}

TEST_CASE("film coefficients at 42 A") {
  // h_c 11.17, h_r 5.69 W/m2/K, radiation 34 % (reference figures, as above; 4 %).
  const double ts = 48.2 + zero_celsius;
  const double ta = barn_air + zero_celsius;
  const double convection =
      heat::film_coefficient(heat::Shape::horizontal_cylinder, outer_diameter, ts, {ta, 0.0});
  const double radiation = 0.9 * heat::stefan_boltzmann * (ts * ts + ta * ta) * (ts + ta);
  CHECK(convection == Approx(11.17).epsilon(0.04));
  CHECK(radiation == Approx(5.69).epsilon(0.04));
  CHECK(radiation / (radiation + convection) == Approx(0.34).margin(0.01));
}

TEST_CASE("without radiation the wire is hotter by a third of its rise") {
  // 80.8 degC at 42 A, rise +37 % (reference figure, as above).
  auto around = still_air(barn_air);
  const auto dull = no_12(0.00393, 1e-9);
  CHECK(steady(dull, around, 42).conductor == Approx(80.8).margin(2.0));
}

TEST_CASE("bright and dark bare wire") {
  // 42 A: bright tin (emissivity 0.05) 101.8, oxidised (0.78) 81.0, covered 61.9 degC (reference
  // figures, as above).
  const auto around = still_air(barn_air);
  CHECK(steady(no_12_bare(0.05), around, 42).conductor == Approx(101.8).margin(2.0));
  CHECK(steady(no_12_bare(0.78), around, 42).conductor == Approx(81.0).margin(2.0));
  CHECK(steady(no_12(), around, 42).conductor == Approx(61.9).margin(2.0));
}
