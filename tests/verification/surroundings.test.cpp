// SPDX-License-Identifier: MIT
// Surroundings that move, and fill of several shapes.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "even_steps.hpp"
#include "has_order.hpp"
#include "heat/constants.hpp"
#include "no_12.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

constexpr double pi = std::numbers::pi;
constexpr double no_14 = 1.62771e-3;  // m (ASTM B258)
constexpr double no_14_area = 0.25 * pi * no_14 * no_14;
constexpr double copper_heat = 8960.0 * 385.0;  // J/m3/K

/// No. 14 in 4.5 mm of rubber of 0.2 W/m/K.
scenario::Wire no_14_in_rubber(double coefficient) {
  auto copper = metal(401.0, 8960.0, 385.0, 1.7241e-8, coefficient);
  copper->melting_point = 1084.62 + zero_celsius;
  return {copper, no_14, {{"rubber", solid("rubber", 0.2, 1200, 1700), 0.5 * (4.5e-3 - no_14)}}};
}

constexpr double of_rubber = 0.80924;  // K m/W, ln(4.5 / 1.62771) / (2 pi 0.2)

Rig buried(const scenario::Wire& wire, double conductivity, double radius, double neighbour = 0.0) {
  Rig rig(wire, still_air(20.0));
  rig.insulated_end()
      .piece("buried", 1.0,
             scenario::Filled{solid("fill", conductivity, 50, 1600), radius, neighbour})
      .insulated_end();
  rig.conductor_probe(0.5);
  return rig;
}

Marched settled(Rig rig, double current) {
  rig.hold(current, 4e7);
  rig.sheet.output.every = 4e7;
  return run(rig.sheet);
}

double slab_radius(double thickness) {
  return 2.0 * thickness / pi;
}

}  // namespace

// ---- surroundings that move ---------------------------------------------------------------------

TEST_CASE("a wire behind air that warms evenly lags by its time constant") {
  // C dT/dt = G (Ta - T) with Ta = Ta0 + r t: T = Ta0 + r (t - tau (1 - exp(-t / tau))) (any text).
  const double rate = 0.02;         // K/s
  const double conductance = 0.18;  // W/m/K
  const double tau = copper_heat * no_14_area / conductance;
  auto rig = long_wire({copper(), no_14, {}}, film(conductance / (pi * no_14), 0.0, 20.0));
  auto& air = rig.sheet.surroundings.front().air;
  air.front().temperature_rate = rate;
  air.push_back({500.0, 30.0 + zero_celsius, 0.0});
  rig.rest(800);
  rig.sheet.output.every = 10.0;
  rig.sheet.output.accuracy = 1e-3;
  const auto marched = run(rig.sheet);
  const auto ramped = [&](double t) {
    return 20.0 + rate * (t - tau * (1.0 - std::exp(-t / tau)));
  };
  for (const auto& row : marched.rows) {
    const double exact = row.time <= 500.0
                             ? ramped(row.time)
                             : 30.0 + (ramped(500.0) - 30.0) * std::exp(-(row.time - 500.0) / tau);
    CHECK(row.probe[0] - zero_celsius == Approx(exact).margin(1e-3));
  }
  CHECK(marched.worst_gap() < 1e-12);
  // The kink ends a time step.
  CHECK(std::find(marched.ends.begin(), marched.ends.end(), 500.0) != marched.ends.end());
}

TEST_CASE("a wire follows walls that warm evenly") {
  // C dT/dt = eps sigma A (Tw^4 - T^4), integrated here by the classical Runge-Kutta rule.
  auto rig =
      long_wire({metal(401, 8960, 385, 1.7241e-8, 0.0, 0.8), no_14, {}}, film(0.0, 0.8, 20.0));
  const double begin = 20.0 + zero_celsius;
  const double rate = 0.1;  // K/s
  rig.sheet.surroundings.front().walls = {{0.0, begin, rate}, {600.0, begin + 60.0}};
  rig.rest(900);
  rig.sheet.output.every = 10.0;
  rig.sheet.output.accuracy = 2e-4;
  const auto marched = run(rig.sheet);
  const double factor = 0.8 * heat::stefan_boltzmann * pi * no_14 / (copper_heat * no_14_area);
  const auto slope = [&](double t, double kelvin) {
    const double walls = begin + rate * std::min(t, 600.0);
    return factor * (std::pow(walls, 4) - std::pow(kelvin, 4));
  };
  double kelvin = begin;
  double t = 0.0;
  for (const auto& row : marched.rows) {
    for (; t < row.time - 1e-9; t += 1.0) {
      const double a = slope(t, kelvin);
      const double b = slope(t + 0.5, kelvin + 0.5 * a);
      const double c = slope(t + 0.5, kelvin + 0.5 * b);
      const double d = slope(t + 1.0, kelvin + c);
      kelvin += (a + 2.0 * b + 2.0 * c + d) / 6.0;
    }
    CHECK(row.probe[0] == Approx(kelvin).margin(2e-3));
  }
}

namespace {

Rig in_moving_air(const scenario::Wire& wire) {
  auto around = still_air(11.0);
  around.air = {{0.0, 11.0 + zero_celsius, 0.05, 0.02, 2e-4}, {1000.0, 31.0 + zero_celsius, 0.25}};
  around.walls = {{0.0, 11.0 + zero_celsius, 0.01}, {1000.0, 21.0 + zero_celsius}};
  auto rig = long_wire(wire, around);
  rig.hold(42, 1000);
  return rig;
}

}  // namespace

TEST_CASE("order 3 in time: air that warms and freshens evenly round a bare wire") {
  CHECK_THAT(EvenSteps{}.halve(in_moving_air(no_12_bare(0.78)).sheet, 80, 3).anywhere,
             HasOrder(3.0));
}

TEST_CASE("order 3 in time: air that warms and freshens evenly round a covering") {
  // Its outer cells follow the air within less than a step.
  CHECK_THAT(EvenSteps{}.halve(in_moving_air(no_12()).sheet, 40, 3).anywhere, HasOrder(3.0));
}

TEST_CASE("a level of a surface is passed at its time while the air warms") {
  // A wire far slower than the air would be at its own temperature; one without heat capacity to
  // speak of is as warm as the air: 20 degC + 0.02 K/s passes 27 degC at 350 s, less the lag.
  auto rig = long_wire({metal(401, 1.0, 385, 1.7241e-8, 0.0), no_14, {}}, film(50.0, 0.0, 20.0));
  rig.sheet.surroundings.front().air = {{0.0, 20.0 + zero_celsius, 0.0, 0.02},
                                        {600.0, 32.0 + zero_celsius, 0.0}};
  watch::Item item;
  item.name = "warm";
  item.part = "surface";
  item.limit = 27.0 + zero_celsius;
  rig.sheet.watch = {item};
  rig.rest(600);
  rig.sheet.output.every = 600.0;
  const auto marched = run(rig.sheet);
  const double lag = 385.0 * no_14_area / (50.0 * pi * no_14);
  REQUIRE(!marched.events.empty());
  CHECK(marched.events.front().time == Approx(350.0 + lag).margin(0.1));
}

// ---- fill ---------------------------------------------------------------------------------------

TEST_CASE("a wire midway in a slab of insulation: five currents to steady") {
  // No. 14 in 4.5 mm, rubber 0.2 W/m/K, faces 20 degC (computed elsewhere from the shape factor 2
  // pi / ln(8 z / (pi D)) of Incropera & DeWitt table 4.1 and the heat's feedback; 1 % of the
  // rise).
  struct Case {
    double thickness, conductivity, wanted[5], runaway;
  };
  for (const Case& c : {Case{0.2, 0.040, {34.8, 55.9, 91.6, 153.0, 268.7}, 42.7},
                        {0.089, 0.040, {31.8, 48.3, 75.0, 117.8, 189.6}, 47.4},
                        {0.089, 0.025, {39.0, 67.2, 118.0, 215.5, 445.2}, 37.9}}) {
    const auto rig = buried(no_14_in_rubber(0.00393), c.conductivity, slab_radius(c.thickness));
    for (int i = 0; i < 5; ++i) {
      const double current = 10.0 + 5.0 * i;
      const double marched = settled(rig, current).last_celsius();
      INFO(c.thickness << " m of " << c.conductivity << " at " << current << " A: " << marched);
      CHECK(marched == Approx(c.wanted[i]).margin(0.01 * (c.wanted[i] - 20.0)));
    }
    // Above a current it never settles: 1 / sqrt(R20 alpha R_th), to its last digit.
    const auto melts = [&](double current) {
      return settled(rig, current).summary.melts.has_value();
    };
    CHECK(melts(1.01 * c.runaway));
    CHECK_FALSE(melts(0.80 * c.runaway));
  }
}

TEST_CASE("shapes of fill resist as their shape factors say") {
  // K m/W between surface and faces: ln(8 z / (pi D)) / (2 pi k) midway, acosh(2 z / D) / (2 pi k)
  // under one face (Incropera & DeWitt table 4.1, from memory; 0.5 %).
  struct Case {
    double radius, conductivity, resistance;
  };
  const double deep = 0.05 + std::sqrt(0.05 * 0.05 - 2.25e-3 * 2.25e-3);
  for (const Case& c : {Case{slab_radius(0.2), 0.040, 16.058},
                        {slab_radius(0.089), 0.040, 12.836},
                        {slab_radius(0.089), 0.025, 20.538},
                        {deep, 0.040, 15.095}}) {
    const auto marched = settled(buried(no_14_in_rubber(0.0), c.conductivity, c.radius), 10.0);
    const double made = marched.last().power;
    CHECK((marched.last_celsius() - 20.0) / made - of_rubber ==
          Approx(c.resistance).epsilon(0.005));
  }
}

TEST_CASE("a return leg in the fill adds what the two sources add up to") {
  // Two lines of q each, d apart, with r_o far: (ln(d / r) + 2 ln(r_o / d)) / (2 pi k) per own q,
  // by superposition; the mutual part is ln(r_o / d) / (2 pi k).
  const double k = 0.04;
  const double outer = 0.3;
  const auto rise = [&](double distance) {
    const auto marched = settled(buried(no_14_in_rubber(0.0), k, outer, distance), 10.0);
    return (marched.last_celsius() - 20.0) / marched.last().power;
  };
  const double alone = rise(0.0);
  CHECK(alone == Approx(of_rubber + std::log(outer / 2.25e-3) / (2.0 * pi * k)).epsilon(1e-4));
  for (const double distance : {0.02, 0.05, 0.15}) {
    CHECK(rise(distance) - alone ==
          Approx(std::log(outer / distance) / (2.0 * pi * k)).epsilon(1e-3));
  }
  CHECK(rise(0.5) == alone);  // beyond the fill
}

TEST_CASE("before its walls are felt, fill takes heat as from a line in an endless body") {
  // q / (4 pi k) E1(r^2 / (4 a t)) (Carslaw & Jaeger, from memory), k 0.040, 50 kg/m3, 1600 J/kg/K,
  // 2 W/m: at 2.25 mm and at 25 mm after 10 min, 1 h, 4 h, 24 h (computed elsewhere; 1 %). The wire
  // holds as much heat here as the fill in its place would.
  const double radius = 2.25e-3;
  const scenario::Wire light{metal(401, 50, 1600, 1.7241e-8, 0.0), 2.0 * radius, {}};
  auto rig = buried(light, 0.04, 2.0);
  rig.radius_probe(0.5, 0.025);
  rig.hold(std::sqrt(2.0 * pi * radius * radius / 1.7241e-8), 86400);
  rig.sheet.output.every = 600.0;
  rig.sheet.output.accuracy = 3e-3;
  const auto marched = run(rig.sheet);
  const double time[] = {600, 3600, 14400, 86400};
  const double at_wire[] = {19.48, 26.59, 32.11, 39.24};
  const double out_there[] = {2.13, 7.77, 13.03, 20.09};
  for (int i = 0; i < 4; ++i) {
    CHECK(marched.celsius(time[i], 0) - 20.0 == Approx(at_wire[i]).epsilon(0.01));
    CHECK(marched.celsius(time[i], 1) - 20.0 == Approx(out_there[i]).epsilon(0.01));
  }
}
