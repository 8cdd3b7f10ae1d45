// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "every_piece.hpp"
#include "marching/heat_budget.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

constexpr double pi = std::numbers::pi;
constexpr double diameter = 2e-3;  // m
constexpr double section = pi * 0.25 * diameter * diameter;

/// A scenario's network with a current, and its budgets.
struct Taken {
  explicit Taken(const scenario::Scenario& scenario)
      : grid(grid::build(scenario)), network(grid, scenario), budget(network, scenario) {
    network.set_surroundings(0.0);
    network.set_drive({scenario::Step::Kind::hold_current, 30.0});
  }

  grid::Grid grid;
  marching::HeatNetwork network;
  marching::HeatBudget budget;
};

Rig bare_wire(const scenario::Surroundings& around) {
  return long_wire({metal(401, 8960, 385, 2e-8, 0.0), diameter, {}}, around);
}

}  // namespace

TEST_CASE("a bare wire gives off convection and radiation by their formulas") {
  const auto rig = bare_wire(film(12.0, 0.8, 20.0));
  Taken taken(rig.sheet);
  taken.budget.take(std::vector<double>(taken.grid.cells, 350.0), 0.0);
  const auto slice = taken.budget.slice(taken.budget.station_at(0.3));
  const double convected = 12.0 * pi * diameter * (350.0 - 293.15);
  // Stefan-Boltzmann constant 5.670374e-8 W/m2/K4 (CODATA 2018, from memory).
  const double radiated =
      0.8 * 5.670374e-8 * pi * diameter * (std::pow(350.0, 4) - std::pow(293.15, 4));
  CHECK(slice.convected == Approx(convected).epsilon(1e-4));
  CHECK(slice.radiated == Approx(radiated).epsilon(1e-4));
  CHECK(slice.made == Approx(900.0 * 2e-8 / section).epsilon(1e-12));
  CHECK(slice.stored_in_wire == Approx(slice.made - convected - radiated).epsilon(1e-4));
  CHECK(slice.stored_around == 0.0);
  CHECK(slice.around.empty());
}

TEST_CASE("heat that comes along a wire is conductivity times section times gradient") {
  const auto rig = bare_wire(film(0.0, 0.0, 20.0));
  Taken taken(rig.sheet);
  std::vector<double> kelvin(taken.grid.cells, 300.0);
  for (std::size_t j = 0; j < taken.grid.stations(); ++j) {
    kelvin[j] = 300.0 + 50.0 * taken.grid.station_centre[j];
  }
  taken.budget.take(kelvin, 0.0);
  const auto slice = taken.budget.slice(taken.budget.station_at(0.5));
  CHECK(slice.wire_from_end * slice.width == Approx(401.0 * section * 50.0));
  CHECK(slice.wire_from_start * slice.width == Approx(-401.0 * section * 50.0));
  CHECK(slice.stored_in_wire == Approx(slice.made).epsilon(1e-6));
}

TEST_CASE("a slice that loses nothing stores what the current and the breakdown make") {
  auto rubber = solid("rubber", 0.2, 1150, 1700);
  materials::Breakdown breakdown;
  breakdown.frequency = 2e10;
  breakdown.energy = 1.3e5;
  breakdown.heat = 4e5;
  rubber->breakdown = breakdown;
  const auto rig =
      long_wire({metal(401, 8960, 385, 2e-8, 0.0), diameter, {{"rubber", rubber, 1e-3}}},
                film(0.0, 0.0, 20.0));
  Taken taken(rig.sheet);
  taken.network.reactions().begin();
  taken.budget.take(std::vector<double>(taken.grid.cells, 480.0), 0.0);
  const auto slice = taken.budget.slice(taken.budget.station_at(0.5));
  const double covering = pi * (4e-6 - 1e-6);  // m2, between the radii 1 and 2 mm
  // Gas constant 8.314463 J/mol/K (CODATA 2018, from memory).
  const double rate = 2e10 * std::exp(-1.3e5 / (8.314463 * 480.0));
  CHECK(slice.breakdown == Approx(4e5 * 1150.0 * covering * rate).epsilon(1e-5));
  CHECK(slice.stored_in_wire == Approx(slice.made + slice.breakdown).epsilon(1e-9));
}

TEST_CASE("what a slice stores is what the ledger of a march gains there") {
  auto rig = long_wire({copper(), diameter, {{"rubber", solid("rubber", 0.2, 1150, 1700), 1e-3}}},
                       still_air(11.0));
  rig.hold(30.0, 120.0);
  rig.sheet.output.every = 1.0;
  rig.sheet.output.accuracy = 1e-4;
  const auto marched = run(rig.sheet);
  Taken taken(rig.sheet);
  taken.budget.take(marched.last().temperature, marched.last().time);
  const auto slice = taken.budget.slice(taken.budget.station_at(0.5));
  const auto stored = [&](double time) { return marched.at(time).ledger.stored; };
  // The slope at the end of three points, to the second order.
  const double gain = 1.5 * stored(120.0) - 2.0 * stored(119.0) + 0.5 * stored(118.0);
  CHECK(slice.stored_in_wire == Approx(gain / rig.sheet.length()).epsilon(2e-4));
}

TEST_CASE("the budgets of all slices and bodies make up the whole network's") {
  for (const auto gaps : {Gaps::of_air, Gaps::of_a_solid}) {
    const auto rig = every_piece(copper(), still_air(11), gaps);
    Taken taken(rig.sheet);
    std::vector<double> kelvin(taken.grid.cells);
    for (std::size_t c = 0; c < kelvin.size(); ++c) {
      kelvin[c] = 330.0 + 20.0 * std::sin(0.37 * static_cast<double>(c));
    }
    taken.budget.take(kelvin, 0.0);
    std::vector<double> net(taken.grid.cells, 0.0);
    const auto totals = taken.network.rates(kelvin, net, false);
    double made = 0.0, lost = 0.0, stored = 0.0, into_bodies = 0.0, along = 0.0;
    for (std::size_t j = 0; j < taken.grid.stations(); ++j) {
      const auto slice = taken.budget.slice(j);
      const double most = std::abs(slice.into_around) + std::abs(slice.wire_from_start) +
                          std::abs(slice.wire_from_end) + std::abs(slice.stored_in_wire) +
                          std::abs(slice.stored_around);
      CHECK(std::abs(slice.gap()) < 1e-11 * most);
      made += slice.width * (slice.made + slice.breakdown);
      lost += slice.width * (slice.convected + slice.radiated + slice.held);
      stored += slice.width * (slice.stored_in_wire + slice.stored_around);
      into_bodies += slice.width * slice.into_body;
      along += slice.width * (slice.wire_from_start + slice.wire_from_end +
                              slice.around_from_start + slice.around_from_end);
    }
    CHECK(std::abs(along) < 1e-9 * std::abs(lost));
    double into_first_parts = 0.0;
    for (const auto& body : taken.budget.bodies()) {
      CHECK(std::abs(body.gap()) <
            1e-11 * (std::abs(body.comes_in) + std::abs(body.passed_on) + std::abs(body.stored)));
      made += body.made;
      lost += body.convected + body.radiated + body.held;
      stored += body.stored;
      into_first_parts += body.comes_in - body.passed_on;
    }
    CHECK(into_first_parts == Approx(into_bodies));
    CHECK(made == Approx(totals.made));
    CHECK(lost == Approx(totals.lost));
    CHECK(stored == Approx(totals.made - totals.lost));
  }
}

TEST_CASE("a budget names what lies round the wire and what stands beside it") {
  const auto rig = every_piece(copper(), still_air(11), Gaps::of_air);
  Taken taken(rig.sheet);
  taken.budget.take(std::vector<double>(taken.grid.cells, 330.0), 0.0);
  const auto at = [&](const std::string& name) {
    for (const auto& piece : rig.sheet.run) {
      if (piece.name == name) {
        return taken.budget.slice(taken.budget.station_at(piece.begin + 0.5 * piece.length));
      }
    }
    return marching::SliceBudget{};
  };
  CHECK(at("s").around == "gap, sleeve");
  CHECK(at("T1").around == "gap, ceramic, wood");
  CHECK(at("f").around == "fill");
  CHECK(at("K1").body == "K1");
  CHECK(at("K1").around.empty());
}
