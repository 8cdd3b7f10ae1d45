// SPDX-License-Identifier: MIT
#include "peer_jacobian.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "every_piece.hpp"
#include "peer_cases.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

/// Every kind of conduction and exchange there is, with conductivities that do not vary. Without
/// leads: the Jacobian leaves out that their resistance follows temperature.
Rig one_of_each() {
  auto rig = every_piece(copper(), still_air(11), Gaps::of_a_solid);
  for (auto& piece : rig.sheet.run) {
    if (auto* lug = std::get_if<scenario::Lug>(&piece.kind)) {
      lug->sinks_to_lead = false;
    }
  }
  rig.hold(50, 60);
  rig.sheet.output.grid = 0.03;
  rig.sheet.output.radial_cells = 4;
  return rig;
}

/// Largest difference between the Jacobian and central difference quotients of the rates, as a part
/// of the largest entry of its column.
double worst_entry(const Rig& rig) {
  const auto grid = grid::build(rig.sheet);
  marching::HeatNetwork network(grid, rig.sheet);
  network.set_drive({scenario::Step::Kind::hold_current, 50.0});
  const Unknowns unknowns = unknowns_as_laid(network);
  const std::size_t n = unknowns.size();
  std::vector<double> temperature(grid.cells), up(grid.cells), down(grid.cells);
  for (std::size_t c = 0; c < grid.cells; ++c) {
    temperature[c] = 320.0 + 40.0 * std::sin(0.1 * static_cast<double>(c));
  }
  network.rates(temperature, up, true);
  HeatJacobian jacobian(network, unknowns,
                        [&](std::size_t row, std::size_t column) { return row + n * column; });
  std::vector<double> entries(n * n, 0.0);
  jacobian.fill(std::vector<double>(grid.cells, 1.0), entries.data());
  double worst = 0.0;
  for (std::size_t k = 0; k < n; ++k) {
    const std::size_t c = unknowns.cell[k];
    const double middle = temperature[c];
    temperature[c] = middle + 1e-2;
    network.rates(temperature, up, false);
    temperature[c] = middle - 1e-2;
    network.rates(temperature, down, false);
    temperature[c] = middle;
    const auto column = entries.begin() + static_cast<std::ptrdiff_t>(n * k);
    const double scale =
        std::abs(*std::max_element(column, column + static_cast<std::ptrdiff_t>(n),
                                   [](double a, double b) { return std::abs(a) < std::abs(b); }));
    for (std::size_t r = 0; r < n; ++r) {
      const std::size_t cell = unknowns.cell[r];
      const double quotient = (up[cell] - down[cell]) / (2e-2 * network.capacity()[cell]);
      worst = std::max(worst, std::abs(entries[r + n * k] - quotient) / scale);
    }
  }
  return worst;
}

}  // namespace

TEST_CASE("the peer's Jacobian is that of the rates, entry by entry") {
  CHECK(worst_entry(one_of_each()) < 1e-5);
}

TEST_CASE("the peer's band holds every entry and is no wider than the grid's own order") {
  const auto rig = one_of_each();
  const auto grid = grid::build(rig.sheet);
  const marching::HeatNetwork network(grid, rig.sheet);
  const auto pairs = conductions(network);
  const auto narrow = unknowns_in_band(network);
  CHECK(narrow.size() == grid.real_cells);
  auto cells = narrow.cell;
  std::sort(cells.begin(), cells.end());
  CHECK(cells == unknowns_as_laid(network).cell);
  CHECK(half_bandwidth(pairs, narrow) < half_bandwidth(pairs, unknowns_as_laid(network)));
}
