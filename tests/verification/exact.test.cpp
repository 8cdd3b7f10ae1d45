// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "exact_solutions.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

constexpr double pi = std::numbers::pi;
constexpr double no_14 = 1.62771e-3;  // m, 0.127 mm x 92^((36 - 14) / 39)  (ASTM B258)
constexpr double no_14_area = 0.25 * pi * no_14 * no_14;

}  // namespace

TEST_CASE("layered cylinder: an insulated steam pipe, Cengel & Ghajar example 3-8") {
  // Steam 320 degC, pipe 5 / 5.5 cm of k 80, glass wool 3 cm of k 0.05, outside 5 degC with h 18,
  // inside h 60: 121 W/m; 0.02 K over the pipe, 284 K over the wool (inputs seen, answers from
  // memory, very sure; 0.3 %). The inside film is not the wire's: it stands for a rise of its own.
  const LayeredCylinder pipe{0.025, {{0.0275, 80.0}, {0.0575, 0.05}}, 18.0};
  const double inside = 1.0 / (60.0 * 2.0 * pi * 0.025);
  const double q = 315.0 / (inside + pipe.resistance_from(0.025));
  CHECK(q == Approx(121.0).epsilon(0.003));
  // The march: a conductor of the pipe's bore making that heat, its layers and film as given.
  auto rig = long_wire({metal(401, 8960, 385, 1.7241e-8, 0.0),
                        0.05,
                        {{"pipe", solid("pipe", 80.0, 7800, 470), 2.5e-3},
                         {"wool", solid("wool", 0.05, 50, 800), 0.03}}},
                       film(18.0, 0.0, 5.0));
  const double ohm = 1.7241e-8 / (pi * 0.025 * 0.025);
  rig.radius_probe(0.5, 0.0275).hold(std::sqrt(120.8 / ohm), 4e6);
  rig.sheet.output.every = 4e6;
  const auto marched = run(rig.sheet);
  CHECK(marched.last_celsius(0) == Approx(5.0 + 120.8 * pipe.resistance_from(0.025)).margin(0.01));
  CHECK(marched.last_celsius(0) - marched.last_celsius(2) == Approx(0.02).margin(0.005));
  CHECK(marched.last_celsius(2) - marched.last_celsius(1) == Approx(284.0).epsilon(0.003));
}

TEST_CASE("adiabatic heating: IEC 60949, and the march with nothing lost") {
  // K = 226 A s^1/2 / mm2 and beta 234.5 for copper with 3.45 MJ/m3/K (seen; recomputed 225.7, 0.5
  // %).
  const AdiabaticHeating rounded{3.45e6, 1.7241e-8, 234.5, no_14_area};
  CHECK(rounded.constant() * 1e-6 == Approx(226.0).epsilon(0.005));
  const AdiabaticHeating law{3.46e6, 1.7241e-8, 234.5, no_14_area};  // what K = 226 stands for
  // k factors of IEC 60364-5-54 (from memory, very sure; 0.5 %): 30 -> 160, 200, 250 degC.
  for (const auto& [to, k] : {std::pair{160.0, 143.0}, {200.0, 159.0}, {250.0, 176.0}}) {
    CHECK(1e-6 * law.constant() * std::sqrt(std::log((to + 234.5) / (30.0 + 234.5))) ==
          Approx(k).epsilon(0.005));
  }
  auto rig = long_wire({metal(401, 3.46e6 / 385.0, 385, 1.7241e-8, 1.0 / 254.5), no_14, {}},
                       film(0.0, 0.0, 30.0));
  rig.hold(100, 15.6);
  rig.sheet.output.every = 0.1;
  const auto marched = run(rig.sheet);
  for (const auto& row : marched.rows) {
    CHECK(row.probe[0] - zero_celsius == Approx(law.celsius(100, 30, row.time)).margin(0.09));
  }
  // Seconds to 60 / 160 / 300 degC at 100 A (CALC from IEC 60949; 0.5 %).
  CHECK(law.seconds(100, 30, 60) == Approx(2.38).epsilon(0.005));
  CHECK(law.seconds(100, 30, 160) == Approx(8.84).epsilon(0.005));
  CHECK(law.seconds(100, 30, 300) == Approx(15.6).epsilon(0.005));
}

TEST_CASE("lumped cooling in a linear film") {
  // Bare No. 14 of 7.179 J/m/K in hP 0.18 W/m/K: tau 39.9 s.
  const LumpedCooling law{8960.0 * 385.0 * no_14_area / 0.18, 20.0, 180.0};
  auto rig = long_wire({copper(), no_14, {}}, film(0.18 / (pi * no_14), 0.0, 20.0));
  rig.start(180).rest(300);
  rig.sheet.output.every = 10.0;
  const auto marched = run(rig.sheet);
  for (const auto& row : marched.rows) {
    CHECK(row.probe[0] - zero_celsius == Approx(law.celsius(row.time)).margin(0.09));
  }
}

TEST_CASE("lumped heating with linear resistance: rise and time constant") {
  // C'/(hP - I^2 R20 alpha): 41.6 / 43.0 / 47.6 s at 15 / 20 / 30 A, rise 10.80 / 19.85 / 49.48 K
  // for C' 7.179 J/m/K, hP 0.18 W/m/K (CALC from the fin equation; 0.2 %).
  const double current[] = {15.0, 20.0, 30.0};
  const double tau[] = {41.6, 43.0, 47.6};
  const double rise[] = {10.80, 19.85, 49.48};
  for (int i = 0; i < 3; ++i) {
    auto rig =
        long_wire({metal(401, 7.179 / no_14_area / 385.0, 385, 1.7241e-8, 0.00393), no_14, {}},
                  film(0.18 / (pi * no_14), 0.0, 20.0));
    rig.hold(current[i], tau[i]).hold(current[i], 3600);
    rig.sheet.output.accuracy = 1e-3;
    const auto marched = run(rig.sheet);
    CHECK(marched.last_celsius() - 20.0 == Approx(rise[i]).epsilon(0.002));
    CHECK(marched.celsius(tau[i]) - 20.0 ==
          Approx(rise[i] * (1.0 - std::exp(-1.0))).epsilon(0.002));
  }
}

TEST_CASE("fin between held ends: middle and mean of a test length between cooled clamps") {
  // Bare No. 14, loss 0.20 W/m/K, clamps and air 20 degC (CALC from the fin equation with linear
  // resistance; 0.2 %): current, length, rise in the middle, mean rise. Conductivity 390 W/m/K.
  struct Row {
    double current, length, middle, mean;
  };
  for (const Row& row :
       {Row{20, 0.3, 14.125, 10.102}, {20, 1.0, 17.707, 15.390}, {30, 0.5, 41.360, 31.654}}) {
    const FinBetweenHeldEnds exact{row.length,  390.0 * no_14_area,     0.20,   20.0,
                                   row.current, 1.7241e-8 / no_14_area, 0.00393};
    CHECK(exact.rise(0.5 * row.length) == Approx(row.middle).epsilon(0.002));
    CHECK(exact.mean_rise() == Approx(row.mean).epsilon(0.002));
    Rig rig({metal(390, 8960, 385, 1.7241e-8, 0.00393), no_14, {}},
            film(0.20 / (pi * no_14), 0.0, 20.0));
    rig.held_end(20).piece("wire", row.length).held_end(20);
    rig.conductor_probe(0.5 * row.length).hold(row.current, 1e5);
    rig.sheet.output.every = 1e5;
    const auto marched = run(rig.sheet);
    CHECK(marched.last_celsius() - 20.0 == Approx(row.middle).epsilon(0.002));
    // The mean as a voltmeter finds it: resistance against resistance at 20 degC.
    const double cold = row.current * row.length * 1.7241e-8 / no_14_area;
    const double mean = (marched.last().electrical.wire_voltage / cold - 1.0) / 0.00393;
    CHECK(mean == Approx(row.mean).epsilon(0.002));
  }
}
