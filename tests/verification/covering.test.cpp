// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "heat/breakdown.hpp"
#include "heat/criticality.hpp"
#include "marching/stepper.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

constexpr double pi = std::numbers::pi;
constexpr double rod = 1e-3;                                          // m
constexpr double thickness = 2e-3;                                    // m
constexpr double rod_heat = 24000.0 * pi * rod * rod;                 // J/m/K
constexpr double section = pi * (2.0 * rod + thickness) * thickness;  // m2
constexpr double density = 1150.0;
constexpr double heat_capacity = 1700.0;

/// A covering that conducts so well that it is at one temperature, on a light rod.
Rig lump(const materials::Breakdown& breakdown, double celsius) {
  auto covering = solid("rubber", 1000.0, density, heat_capacity);
  covering->breakdown = breakdown;
  scenario::Wire wire;
  wire.metal = metal(400.0, 60.0, 400.0, 1e-7, 0.0);
  wire.diameter = 2.0 * rod;
  wire.layers = {{"rubber", covering, thickness}};
  auto rig = long_wire(wire, film(0.0, 0.0, celsius));
  rig.start(celsius);
  return rig;
}

/// Temperature [K] and part converted of the lump, by the classical Runge-Kutta method.
struct Lump {
  double kelvin, converted;
};
Lump by_runge_kutta(const materials::Breakdown& breakdown, double kelvin, double time) {
  // What leaves is as warm as what stays, so that it makes what stays neither warmer nor colder.
  const auto kelvin_at = [&](double converted) {
    const double whole = rod_heat + density * heat_capacity * section;
    const double lost = breakdown.mass_lost * density * heat_capacity * section / whole;
    const double made = breakdown.heat * density * section / whole;  // K per part, nothing lost
    return kelvin + (lost > 0.0 ? -made / lost * std::log1p(-lost * converted) : made * converted);
  };
  const auto rate = [&](double converted) {
    return heat::rate_constant(breakdown, kelvin_at(converted)) * (1.0 - converted);
  };
  constexpr int steps = 20000;
  const double h = time / steps;
  double part = 0.0;
  for (int i = 0; i < steps; ++i) {
    const double k1 = rate(part);
    const double k2 = rate(part + 0.5 * h * k1);
    const double k3 = rate(part + 0.5 * h * k2);
    const double k4 = rate(part + h * k3);
    part += h / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
  }
  return {kelvin_at(part), part};
}

const materials::Breakdown warming{1e9, 110e3, 300e3, {}};

}  // namespace

TEST_CASE("a covering that breaks down without losing heat warms as the rate law says") {
  // Against the two ordinary equations of a lump, integrated here. On the way errors grow like the
  // rise they speed up, so little is asked of each step: 0.002 K.
  auto rig = lump(warming, 240.0);
  rig.rest(300.0);
  rig.sheet.output.every = 10.0;
  rig.sheet.output.accuracy = 0.002;
  const auto marched = run(rig.sheet);
  for (const double time : {10.0, 20.0, 30.0, 40.0, 60.0, 300.0}) {
    CAPTURE(time);
    const auto expected = by_runge_kutta(warming, 240.0 + zero_celsius, time);
    CHECK(marched.celsius(time) == Approx(expected.kelvin - zero_celsius).margin(0.05));
  }
  CHECK(by_runge_kutta(warming, 240.0 + zero_celsius, 300.0).converted > 0.99);
  CHECK(marched.worst_gap() < 1e-12);
}

TEST_CASE(
    "a covering that leaves as gas takes along the heat it held, and the rest warms the more") {
  // Of first order in time, as the heat capacity falls between the steps: a tighter accuracy.
  const materials::Breakdown gassing{1e9, 110e3, 300e3, {}, 0.6};
  auto rig = lump(gassing, 240.0);
  rig.rest(300.0);
  rig.sheet.output.every = 10.0;
  rig.sheet.output.accuracy = 0.0001;
  const auto marched = run(rig.sheet);
  for (const double time : {20.0, 40.0, 60.0, 300.0}) {
    CAPTURE(time);
    const auto expected = by_runge_kutta(gassing, 240.0 + zero_celsius, time);
    CHECK(marched.celsius(time) == Approx(expected.kelvin - zero_celsius).margin(0.5));
  }
  // By the closed form the end is 39 K above where all mass stays.
  CHECK(by_runge_kutta(gassing, 240.0 + zero_celsius, 300.0).kelvin >
        by_runge_kutta(warming, 240.0 + zero_celsius, 300.0).kelvin + 30.0);
  CHECK(marched.worst_gap() < 1e-12);
  CHECK(marched.last().ledger.lost > 0.1 * marched.last().ledger.made);
}

TEST_CASE("a step of a reaction errs with the third power of its length") {
  auto rig = lump(warming, 240.0);
  const auto grid = grid::build(rig.sheet);
  const double expected = by_runge_kutta(warming, 240.0 + zero_celsius, 12.0).kelvin;
  const auto error = [&](int steps) {
    marching::HeatNetwork network(grid, rig.sheet);
    marching::Stepper stepper(network, rig.sheet.start_temperature);
    network.set_surroundings(0.0);
    for (int i = 0; i < steps; ++i) {
      stepper.attempt(12.0 * i / steps, 12.0 / steps);
      stepper.advance(1.0);
    }
    return std::abs(stepper.state()[0] - expected);
  };
  const double coarse = error(6);
  const double fine = error(12);
  CAPTURE(coarse, fine);
  CHECK(std::log2(coarse / fine) > 2.6);
}

TEST_CASE("the heat booked is the converted mass times the heat of its reaction") {
  for (const double heat : {300e3, -200e3}) {
    const materials::Breakdown breakdown{1e9, 110e3, heat, {}};
    auto rig = lump(breakdown, 260.0);
    const auto grid = grid::build(rig.sheet);
    marching::HeatNetwork network(grid, rig.sheet);
    marching::Stepper stepper(network, rig.sheet.start_temperature);
    network.set_surroundings(0.0);
    for (int i = 0; i < 150; ++i) {
      stepper.attempt(0.0, 1.0);
      stepper.attempt(0.0, 0.5);
      stepper.advance(i % 2 == 0 ? 1.0 : 0.37);
    }
    double made = 0.0;
    double converted = 0.0;
    const auto& reactions = network.reactions();
    for (std::size_t k = 0; k < reactions.size(); ++k) {
      made += heat * density * grid.volume[reactions.cell(k)] * reactions.converted(k);
      converted = std::max(converted, reactions.converted(k));
    }
    CHECK(converted > 0.2);
    CHECK(stepper.ledger().made == Approx(made).epsilon(1e-12));
    CHECK(std::abs(stepper.ledger().gap()) < 1e-12 * std::abs(made));
  }
}

TEST_CASE("a reaction that makes no heat follows its exponential") {
  const materials::Breakdown idle{1e9, 110e3, 0.0, {}};
  auto rig = lump(idle, 250.0);
  const auto grid = grid::build(rig.sheet);
  marching::HeatNetwork network(grid, rig.sheet);
  marching::Stepper stepper(network, rig.sheet.start_temperature);
  network.set_surroundings(0.0);
  const double rate = heat::rate_constant(idle, 250.0 + zero_celsius);
  for (int i = 0; i < 100; ++i) {
    stepper.attempt(0.0, 0.03 / rate);
    stepper.advance(1.0);
  }
  CHECK(network.reactions().converted(0) == Approx(1.0 - std::exp(-3.0)).epsilon(1e-6));
}

TEST_CASE("what has broken down conducts as stated") {
  // A film and a broken-down covering in series, by hand: q = 2 pi k dT / ln(r2 / r1).
  auto rig = lump({1e9, 110e3, 0.0, 0.05}, 300.0);
  rig.sheet.surroundings.front() = film(20.0, 0.0, 300.0);
  rig.sheet.wire.metal = metal(400.0, 60.0, 400.0, 1e-6, 0.0);
  rig.hold(10.0, 20000.0);
  rig.sheet.output.every = 20000.0;
  const auto marched = run(rig.sheet);
  const double watt = 100.0 * 1e-6 / (pi * rod * rod);
  CHECK(marched.last_celsius(0) - marched.last_celsius(1) ==
        Approx(watt * std::log(3.0) / (2.0 * pi * 0.05)).epsilon(0.01));
  CHECK(marched.last_celsius(1) - 300.0 == Approx(watt / (2.0 * pi * 3e-3 * 20.0)).epsilon(0.01));
}

TEST_CASE("a march finds the critical state of a cylinder that heats itself") {
  // Frank-Kamenetskii's cylinder, radius 5 mm, surface held at 200 degC: parameter 1.5 comes to
  // rest 0.5754 R T^2 / E above it; 2.4 does not come to rest. The closed form takes the exponent
  // as linear: R T / E = 2.6 % off; 5 %.
  const double surface = 200.0 + zero_celsius;
  heat::SelfHeating solid_of{{1e12, 150e3, 6e6, {}}, 1000.0, 0.15};
  const auto marched_at = [&](double parameter) {
    solid_of.breakdown.frequency *= parameter / heat::frank_kamenetskii(solid_of, 5e-3, surface);
    auto fill = solid("fill", 0.15, 1000.0, 1500.0);
    fill->breakdown = solid_of.breakdown;
    scenario::Wire wire;
    wire.metal = metal(0.2, 1000.0, 1500.0, 1e-6, 0.0);
    wire.diameter = 0.1e-3;
    Rig rig(wire, film(10.0, 0.0, 200.0));
    rig.insulated_end().piece("fill", 1.0, scenario::Filled{fill, 5e-3}).insulated_end();
    rig.conductor_probe(0.5).start(200.0).rest(600.0);
    rig.sheet.output.every = 20.0;
    return run(rig.sheet);
  };
  const double scale = heat::temperature_scale(solid_of.breakdown, surface);
  const auto rest = [&](double parameter) { return marched_at(parameter).last_celsius() - 200.0; };
  CHECK(rest(1.5) == Approx(0.5754 * scale).epsilon(0.05));
  CHECK(rest(1.0) == Approx(heat::steady_rise_of_cylinder(1.0).value() * scale).epsilon(0.05));
  const auto rows = marched_at(2.4).rows;
  CHECK(std::any_of(rows.begin(), rows.end(),
                    [&](const auto& row) { return row.probe[0] - surface > 20.0 * scale; }));
}
