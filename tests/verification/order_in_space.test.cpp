// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "exact_solutions.hpp"
#include "has_order.hpp"
#include "kinds_of_cell.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

constexpr double pi = std::numbers::pi;

/// Probes at the end of the staircase, against what they tend to as the grid is refined or against
/// the next finer grid.
enum class Against { extrapolated, next };

Convergence refined(const scenario::Scenario& sheet, const std::vector<double>& scales,
                    Against against = Against::extrapolated) {
  Refinement refinement;
  for (const double scale : scales) {
    refinement.add(1.0 / scale, run(sheet, scale).last().probe);
  }
  return against == Against::next ? refinement.against_next()
                                  : refinement.against_extrapolated(2.0);
}

/// A steady state owes little to the steps that led to it, but not nothing: in long steps what
/// turns round corners settles slowly.
Rig settled(Rig rig, double after = 4e6) {
  rig.sheet.output.accuracy = 1e-4;
  rig.sheet.staircase.back().duration = after;
  rig.sheet.output.every = after;
  return rig;
}

Convergence refined_steady(const Rig& rig, const std::vector<double>& scales,
                           Against against = Against::extrapolated) {
  return refined(settled(rig).sheet, scales, against);
}

/// What the first probe falls by from each grid to the next, K; after a day, when it differs by
/// less than 1e-4 K from what it is after a month.
std::vector<double> steady_differences(const Rig& rig, const std::vector<double>& scales) {
  std::vector<double> differences;
  double before = 0.0;
  for (const double scale : scales) {
    const double value = run(settled(rig, 1e5).sheet, scale).last().probe[0];
    differences.push_back(before - value);
    before = value;
  }
  differences.erase(differences.begin());
  return differences;
}

/// The same in the middle of a transient, whose time error is far below that of the grid.
Convergence refined_transient(Rig rig, const std::vector<double>& scales) {
  rig.sheet.output.every = 1e6;
  rig.sheet.output.accuracy = 1e-6;
  rig.sheet.output.radial_cells = 4;
  return refined(rig.sheet, scales);
}

}  // namespace

TEST_CASE("order 2 along the wire: fin between held ends") {
  // Bare No. 14 of 0.5 m at 30 A; the closed solution of FinBetweenHeldEnds.
  const double diameter = 1.628e-3;
  const double area = 0.25 * pi * diameter * diameter;
  const double loss = 0.20;  // W/m/K
  const FinBetweenHeldEnds exact{0.5, 401.0 * area, loss, 20.0, 30.0, 1.7241e-8 / area, 0.00393};
  Rig rig({copper(), diameter, {}}, film(loss / (pi * diameter), 0.0, 20.0));
  rig.held_end(20).piece("wire", 0.5).held_end(20).hold(30, 1e5);
  rig.sheet.output.grid = 0.02;
  rig.sheet.output.every = 1e5;
  Convergence found;
  for (const double scale : {1.0, 2.0, 4.0, 8.0}) {
    const auto grid = grid::build(rig.sheet, scale);
    const auto marched = run(rig.sheet, scale);
    double worst = 0.0;  // at the centres of the cells: no interpolation enters
    for (std::size_t j = 0; j < grid.stations(); ++j) {
      const double rise = marched.last().temperature[j] - zero_celsius - 20.0;
      worst = std::max(worst, std::abs(rise - exact.rise(grid.station_centre[j])));
    }
    found.size.push_back(1.0 / static_cast<double>(grid.stations()));
    found.error.push_back(worst);
  }
  CHECK_THAT(found, HasOrder(2.0));
  CHECK(found.error.back() < 5e-3);
}

TEST_CASE("order 2 across the covering: a covered core cools") {
  // Bessel series of CoveredCore; 100 K above the air at first.
  const CoveredCore::Data data{1e-3, 4e-3, 8960.0 * 385.0 * pi * 1e-6, 0.16, 1200.0 * 1700.0, 15.0};
  const CoveredCore exact(data);
  CHECK(exact.excess(1e-3, 0.5) == Approx(1.0).margin(1e-3));  // the series adds up to the start
  auto rig = long_wire({copper(), 2e-3, {{"rubber", solid("rubber", 0.16, 1200, 1700), 3e-3}}},
                       film(15.0, 0.0, 20.0));
  rig.start(120).rest(180);
  rig.sheet.output.every = 30.0;
  rig.sheet.output.grid = 1.0;
  rig.sheet.output.accuracy = 2e-7;
  rig.sheet.output.radial_cells = 8;
  Convergence found;
  for (const double scale : {1.0, 2.0, 4.0, 8.0}) {
    const auto marched = run(rig.sheet, scale);
    double worst = 0.0;
    for (const double t : {30.0, 60.0, 120.0, 180.0}) {
      worst =
          std::max({worst, std::abs(marched.celsius(t, 0) - 20.0 - 100.0 * exact.excess(1e-3, t)),
                    std::abs(marched.celsius(t, 1) - 20.0 - 100.0 * exact.excess(4e-3, t))});
    }
    found.size.push_back(1.0 / scale);
    found.error.push_back(worst);
  }
  CHECK_THAT(found, HasOrder(2.0));
  CHECK(found.error.back() < 5e-3);
}

TEST_CASE("order 2 in homogeneous rows and across an interface of two layers") {
  CHECK_THAT(refined_transient(homogeneous_rows(), {2, 4, 8, 16}), HasOrder(2.0));
  CHECK_THAT(refined_transient(layer_interface(), {2, 4, 8, 16}), HasOrder(2.0));
}

TEST_CASE("order 2 in moving surroundings") {
  CHECK_THAT(refined_transient(moving_surroundings(), {2, 4, 8, 16}), HasOrder(2.0));
}

TEST_CASE("order 2 across an air gap, whose conductivity follows temperature") {
  CHECK_THAT(refined_steady(air_gap(), {1, 2, 4, 8, 16}), HasOrder(2.0));
}

TEST_CASE("order 2 across air to wood and into it") {
  CHECK_THAT(refined_steady(facing_wood(), {1, 2, 4, 8, 16}), HasOrder(2.0));
}

TEST_CASE("order 2 between held ends") {
  CHECK_THAT(refined_steady(held_ends(), {1, 2, 4, 8}), HasOrder(2.0));
}

// At the corner of a step the exact temperature has no bounded slope. Where a quarter of a plane of
// conductivity `upper` stands on a half plane of `lower` and nothing passes the outside, it goes
// like r^a with
//   lower tan(a pi) + upper tan(a pi / 2) = 0,   tan^2(a pi / 2) = 1 + 2 lower / upper,
// and a scheme of order 2 is of order 2 a away from the corner (wedge of two materials: computed
// here; the doubling: any text on corner singularities of elliptic problems, from memory).
double order_at_corner(double lower, double upper) {
  return 2.0 * (2.0 / pi) * std::atan(std::sqrt(1.0 + 2.0 * lower / upper));
}

TEST_CASE("the order that a corner allows, in the conductor beside the end of a sleeve") {
  // Sleeving on rubber: 1.63.
  CHECK_THAT(refined_steady(sleeve_end(0.1), {2, 4, 8, 16}, Against::next),
             HasOrder(order_at_corner(0.5, 0.1)));
}

TEST_CASE("the order that a corner allows, in the conductor beside a tube through a board") {
  // Still air on rubber at the mouth, wood on porcelain at the board: 1.55 and 1.76, in unknown
  // shares, beside what is smooth.
  const double found =
      refined_steady(tube_through_board(0.3), {2, 4, 8, 16}, Against::next).order();
  CHECK(found > order_at_corner(0.16, 0.05) - 0.1);
  CHECK(found < 2.1);
}

TEST_CASE("order 2 in the conductor at side bodies") {
  // Thirds: the number of a knob's cells, always odd so that the wire has one in the middle,
  // triples.
  CHECK_THAT(refined_steady(knob_all_along(1.0), {3, 9, 27}), HasOrder(2.0));
  CHECK_THAT(refined_steady(knob_all_along(0.6), {3, 9, 27}), HasOrder(2.0));
  CHECK_THAT(refined_steady(lugs_with_leads(), {1, 2, 4, 8}), HasOrder(2.0));
}

// Where what leaves a smooth surface jumps from one place to the next, the temperature there goes
// like r ln r, and a scheme of order 2 errs by h^2 (a ln(1/h) + b) (a flux that jumps along a half
// plane: computed here; the error: from memory). The differences d between grids of cells of a
// third of the length then obey
//   d'' = 2/9 d' - 1/81 d,
// the double root being that of order 2; one part in it of order 1 would make it 4/9 d' - 1/27 d,
// half as much again.
TEST_CASE("order 2 but for a logarithm in the conductor beside the ends of a knob's grip") {
  Rig rig = knob_with_wood(0.05, 0.6);
  rig.sheet.output.radial_cells = 4;
  const auto d = steady_differences(rig, {1, 3, 9, 27});
  CHECK(d[2] == Approx(2.0 / 9.0 * d[1] - d[0] / 81.0).epsilon(0.02));
}
