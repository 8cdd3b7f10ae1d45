// SPDX-License-Identifier: MIT
// What a march leaves out or puts off to be fast, on a run with every kind of piece.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <span>
#include <vector>

#include "every_piece.hpp"
#include "grid/grid.hpp"
#include "marching/comb.hpp"
#include "marching/march.hpp"
#include "marching/network.hpp"
#include "marching/view.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

Rig run_of_all() {
  auto rig = every_piece(copper(), still_air(20.0), Gaps::of_air);
  rig.sheet.output.grid = 0.03;
  return rig;
}

/// Neither even nor symmetric, K.
std::vector<double> temperatures(const grid::Grid& grid) {
  std::vector<double> kelvin(grid.cells);
  for (std::size_t c = 0; c < grid.cells; ++c) {
    kelvin[c] = 330.0 + 40.0 * std::sin(0.37 * static_cast<double>(c));
  }
  return kelvin;
}

/// All that rows are filled from.
std::vector<double> evaluated(marching::HeatNetwork& network, const std::vector<double>& kelvin) {
  const auto totals = network.evaluate(kelvin, false);
  std::vector<double> all{totals.made, totals.lost};
  const auto add = [&](const auto& values) { all.insert(all.end(), values.begin(), values.end()); };
  add(network.made());
  add(network.tie_heat());
  add(network.faces().heat());
  add(network.onward());
  add(network.inward());
  return all;
}

/// All that a record shows of a moment at these temperatures.
std::vector<double> shown(marching::View& view, const grid::Grid& grid, std::size_t probes,
                          const std::vector<double>& kelvin) {
  marching::Moment moment;
  moment.temperature = kelvin;
  std::vector<double> all(kelvin.begin(),
                          kelvin.begin() + static_cast<std::ptrdiff_t>(grid.stations()));
  const auto next = [&](std::size_t count) {
    all.resize(all.size() + count);
    return std::span(all).last(count);
  };
  view.surfaces(moment, next(grid.stations()));
  for (std::size_t part = 0; part < view.parts().size(); ++part) {
    view.part(part, kelvin, next(view.parts()[part].position.size()));
  }
  view.probes(moment, next(probes));
  return all;
}

class Last : public marching::Observer {
 public:
  void moment(const marching::Moment& moment) override {
    temperature.assign(moment.temperature.begin(), moment.temperature.end());
  }
  bool advanced(double) override { return true; }
  std::vector<double> temperature;
};

}  // namespace

TEST_CASE("evaluating reads no cell but those that are said to be read") {
  const auto rig = run_of_all();
  const auto grid = grid::build(rig.sheet);
  marching::HeatNetwork network(grid, rig.sheet);
  network.set_drive({scenario::Step::Kind::hold_current, 50.0});
  const auto kelvin = temperatures(grid);
  std::vector<double> told(grid.cells, std::numeric_limits<double>::quiet_NaN());
  for (const auto& [first, count] : network.rows_read()) {
    std::copy_n(&kelvin[first], count, &told[first]);
  }
  for (const std::size_t cell : network.cells_read()) {
    told[cell] = kelvin[cell];
  }
  CHECK(std::any_of(told.begin(), told.end(), [](double t) { return std::isnan(t); }));
  network.evaluate(kelvin, true);
  const auto wanted = evaluated(network, kelvin);
  CHECK(evaluated(network, told) == wanted);  // NaN would not be equal
}

TEST_CASE("what a record shows needs no cell but those that a view says it reads") {
  auto rig = run_of_all();
  const double end = grid::build(rig.sheet).station_face.back();
  for (int k = 0; k <= 20; ++k) {
    const double at = end * k / 20.0;
    rig.conductor_probe(at).surface_probe(at).part_probe(at, "braid");
    rig.radius_probe(at, 0.3e-3).radius_probe(at, 1.5e-3).radius_probe(at, 9e-3);
  }
  const auto grid = grid::build(rig.sheet);
  marching::HeatNetwork network(grid, rig.sheet);
  marching::View of_all(network, rig.sheet);
  marching::View of_some(network, rig.sheet);
  const auto kelvin = temperatures(grid);
  std::vector<double> told(grid.cells, std::numeric_limits<double>::quiet_NaN());
  for (const auto& [first, count] : of_some.cells_read()) {
    std::copy_n(&kelvin[first], count, &told[first]);
  }
  CHECK(std::any_of(told.begin(), told.end(), [](double t) { return std::isnan(t); }));
  const std::size_t probes = rig.sheet.probes.size();
  CHECK(shown(of_some, grid, probes, told) == shown(of_all, grid, probes, kelvin));
}

TEST_CASE("temperatures that are not numbers are evaluated, and told by what comes out") {
  const auto rig = run_of_all();
  const auto grid = grid::build(rig.sheet);
  marching::HeatNetwork network(grid, rig.sheet);
  network.set_drive({scenario::Step::Kind::hold_current, 50.0});
  network.evaluate(temperatures(grid), true);
  const std::vector<double> lost(grid.cells, std::numeric_limits<double>::quiet_NaN());
  CHECK(std::isnan(network.evaluate(lost, false).lost));
}

TEST_CASE("the axial factor leaves out weak links only, and more of them in shorter steps") {
  const auto rig = run_of_all();
  const auto grid = grid::build(rig.sheet);
  marching::HeatNetwork network(grid, rig.sheet);
  std::vector<double> net(grid.cells);
  network.rates(temperatures(grid), net, true);
  const std::vector<double> slope(grid.cells, 1.0);
  marching::Comb comb(network);
  std::size_t left_out_before = 0;
  for (const double s : {3e4, 30.0, 0.3, 1e-3}) {
    comb.factor(s, slope);
    std::size_t left_out = 0;
    double strongest = 0.0;  // s times its rate, of what is left out
    for (std::size_t p = 1; p < grid.patches.size(); ++p) {
      const auto& patch = grid.patches[p];
      for (std::size_t j = 0; j + 1 < patch.stations; ++j) {
        if (comb.axial().takes_link(p, j)) {
          continue;
        }
        ++left_out;
        for (std::size_t i = 0; i < patch.rows; ++i) {
          const std::size_t cell = patch.row(i) + j;
          const double least = std::min(network.capacity()[cell], network.capacity()[cell + 1]);
          strongest = std::max(strongest, s * network.onward()[cell] / least);
        }
      }
    }
    CHECK(strongest <= 0.15);  // without the factor the scheme begins to swing at 0.218
    CHECK(left_out >= left_out_before);
    left_out_before = left_out;
  }
  CHECK(left_out_before > 0);
}

TEST_CASE("a stepper that is laid out already marches as a new one does") {
  auto rig = run_of_all();
  rig.hold(50, 300).rest(100);
  const auto grid = grid::build(rig.sheet);
  marching::HeatNetwork of_first(grid, rig.sheet);
  of_first.set_surroundings(0.0);
  Last first;
  marching::march(rig.sheet, of_first, first);
  marching::HeatNetwork network(grid, rig.sheet);
  marching::Stepper stepper(network, rig.sheet.start_temperature);
  Last again;
  marching::march_again(rig.sheet, network, stepper, again);
  CHECK(again.temperature == first.temperature);
  // Surfaces are searched for from where they were last: what is found differs by rounding.
  marching::march_again(rig.sheet, network, stepper, again);
  double worst = 0.0;
  for (std::size_t c = 0; c < grid.cells; ++c) {
    worst = std::max(worst, std::abs(again.temperature[c] - first.temperature[c]));
  }
  CHECK(worst < 1e-6);
}
