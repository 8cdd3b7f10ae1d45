// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstddef>
#include <vector>

#include "marching/network.hpp"
#include "marching_dense.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

/// A loose sleeve all along, facing wood, in air that takes up nothing: what follows
/// temperature are the two airs between, and what radiates to the room.
Rig loose_sleeve_beside_wood() {
  scenario::Wire wire{copper(), 1.6e-3, {{"rubber", solid("rubber", 0.16, 1200, 1700), 1.2e-3}}};
  Rig rig(wire, film(0.0, 0.9, 20.0));
  rig.insulated_end()
      .piece("s", 0.2, scenario::Sleeve{solid("sleeving", 0.1, 900, 1400), 1e-3, 1e-3})
      .faces({solid("wood", 0.13, 500, 1700), 2e-3, 0.02, 0.05, 4e-3})
      .insulated_end();
  rig.sheet.output.grid = 0.05;
  rig.sheet.output.radial_cells = 3;
  return rig;
}

/// d(net heat of a cell)/dT of another by central differences, W/K.
double quotient(marching::HeatNetwork& network, std::vector<double> temperature, std::size_t of,
                std::size_t by) {
  std::vector<double> up(temperature.size());
  std::vector<double> down(temperature.size());
  constexpr double kelvin = 0.2;  // within one kelvin of the table of conductivities
  temperature[by] += kelvin;
  network.rates(temperature, up, false);
  temperature[by] -= 2.0 * kelvin;
  network.rates(temperature, down, false);
  return (up[of] - down[of]) / (2.0 * kelvin);
}

bool shares(const marching::HeatNetwork& network, std::size_t cell) {
  const auto& shared = network.shared_surfaces();
  return std::any_of(shared.begin(), shared.end(),
                     [&](const auto& surface) { return surface.cell == cell; });
}

}  // namespace

TEST_CASE("the factor knows how heat through a gas changes with the gas's own temperature") {
  const Rig rig = loose_sleeve_beside_wood();
  const auto g = grid::build(rig.sheet);
  marching::HeatNetwork network(g, rig.sheet);
  network.set_drive({scenario::Step::Kind::hold_current, 0.0});
  std::vector<double> temperature(g.cells);
  for (std::size_t c = 0; c < g.cells; ++c) {
    temperature[c] = 340.5 + std::round(30.0 * std::sin(0.7 * static_cast<double>(c)));
  }
  std::vector<double> net(g.cells);
  network.rates(temperature, net, true);
  const std::vector<double> slope(g.cells, 1.0);
  const Dense dense(network, 1.0, slope, marching::AxialFactor(network));
  std::size_t looked_at = 0;
  for (std::size_t c = 0; c < g.cells; ++c) {
    if (g.volume[c] == 0.0 || !network.nearly_massless(c)) {
      continue;
    }
    const double scale = dense.comb(at(c), at(c));
    for (std::size_t other = 0; other < g.cells; ++other) {
      if (other != c && dense.comb(at(other), at(c)) != 0.0) {
        const double along = dense.conduction_along(at(other), at(c));
        const double found = -dense.comb(at(other), at(c)) - along;
        // What a surface that the gas shares gives to the room changes with it, too, by a little
        // that the factor may leave out.
        const double margin = shares(network, other) ? 2e-2 : 1e-6;
        CHECK(found == Approx(quotient(network, temperature, other, c)).margin(margin * scale));
        ++looked_at;
      }
    }
  }
  CHECK(looked_at > 100);
}
