// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "exact_solutions.hpp"
#include "observed_order.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

constexpr double pi = std::numbers::pi;

}  // namespace

TEST_CASE("order 2 along the wire: fin between held ends") {
  // Bare No. 14 of 0.5 m at 30 A; the closed solution of FinBetweenHeldEnds.
  const double diameter = 1.628e-3;
  const double area = 0.25 * pi * diameter * diameter;
  const double loss = 0.20;  // W/m/K
  const FinBetweenHeldEnds exact{0.5, 401.0 * area, loss, 20.0, 30.0, 1.7241e-8 / area, 0.00393};
  Rig rig({copper(), diameter, {}}, film(loss / (pi * diameter), 0.0, 20.0));
  rig.held_end(20).piece("wire", 0.5).held_end(20).hold(30, 1e5);
  rig.sheet.output.grid = 0.04;
  rig.sheet.output.every = 1e5;
  std::vector<double> size;
  std::vector<double> error;
  for (const double scale : {1.0, 2.0, 4.0, 8.0}) {
    const auto grid = grid::build(rig.sheet, scale);
    const auto marched = run(rig.sheet, scale);
    double worst = 0.0;  // at the centres of the cells: no interpolation enters
    for (std::size_t j = 0; j < grid.stations(); ++j) {
      const double rise = marched.last().temperature[j] - zero_celsius - 20.0;
      worst = std::max(worst, std::abs(rise - exact.rise(grid.station_centre[j])));
    }
    size.push_back(1.0 / static_cast<double>(grid.stations()));
    error.push_back(worst);
  }
  INFO("errors " << error[0] << " " << error[1] << " " << error[2] << " " << error[3] << " K");
  CHECK(observed_order(size, error) == Approx(2.0).margin(0.3));
  CHECK(error.back() < 0.02);
}

TEST_CASE("order 2 across the covering: a covered core cools") {
  // Bessel series of CoveredCoreCooling; 100 K above the air at first.
  const CoveredCoreCooling::Data data{1e-3, 4e-3, 8960.0 * 385.0 * pi * 1e-6, 0.16, 1200.0 * 1700.0,
                                      15.0};
  const CoveredCoreCooling exact(data);
  CHECK(exact.excess(1e-3, 0.5) == Approx(1.0).margin(1e-3));  // the series adds up to the start
  auto rig = long_wire({copper(), 2e-3, {{"rubber", solid("rubber", 0.16, 1200, 1700), 3e-3}}},
                       film(15.0, 0.0, 20.0));
  rig.start(120).rest(180);
  rig.sheet.output.every = 30.0;
  rig.sheet.output.grid = 1.0;
  rig.sheet.output.accuracy = 2e-6;
  rig.sheet.output.radial_cells = 4;
  std::vector<double> size;
  std::vector<double> error;
  for (const double scale : {1.0, 2.0, 4.0, 8.0}) {
    const auto marched = run(rig.sheet, scale);
    double worst = 0.0;
    for (const double t : {30.0, 60.0, 120.0, 180.0}) {
      worst =
          std::max({worst, std::abs(marched.celsius(t, 0) - 20.0 - 100.0 * exact.excess(1e-3, t)),
                    std::abs(marched.celsius(t, 1) - 20.0 - 100.0 * exact.excess(4e-3, t))});
    }
    size.push_back(1.0 / scale);
    error.push_back(worst);
  }
  INFO("errors " << error[0] << " " << error[1] << " " << error[2] << " " << error[3] << " K");
  CHECK(observed_order(size, error) == Approx(2.0).margin(0.3));
  CHECK(error.back() < 0.02);
}
