// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <cstddef>
#include <numbers>

#include "grid/grid.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

constexpr double pi = std::numbers::pi;

scenario::Knob knob() {
  scenario::Knob knob;
  knob.body = solid("porcelain", 1.5, 2400, 1050);
  knob.mass = 0.068;
  knob.height = 0.04;
  knob.covers = 0.5;
  knob.grip_conductance = 300.0;
  knob.wood = solid("wood", 0.12, 480, 1600);
  knob.base_conductance = 100.0;
  knob.wood_depth = 0.05;
  return knob;
}

scenario::Lug lug() {
  return {0.35e-3, 0.02, 5.0, 1e-3, true};
}

Rig rig_with_bodies() {
  Rig rig({copper(), 2.0525e-3, {{"rubber", solid("rubber", 0.15, 1150, 1700), 1.19e-3}}},
          still_air(11));
  rig.piece("A", 0.0, lug())
      .piece("south", 0.4)
      .piece("K1", 0.04, knob())
      .piece("north", 0.4)
      .piece("B", 0.0, lug());
  rig.sheet.supply.lead = {2.4, 16e-6, 1e-3, copper()};
  return rig;
}

double chain_volume(const grid::Grid& g, const grid::SideBody& body, const std::string& part) {
  double total = 0.0;
  for (std::size_t i = 0; i < body.cells; ++i) {
    const std::size_t c = body.first_cell + i;
    total += g.media[g.medium[c]].part == part ? g.volume[c] : 0.0;
  }
  return total;
}

}  // namespace

TEST_CASE("a knob's ceramic has its mass and its wood the spreading volume") {
  const auto rig = rig_with_bodies();
  const auto g = grid::build(rig.sheet);
  REQUIRE(g.bodies.size() == 3);
  const auto& body = g.bodies[1];
  CHECK(body.name == "K1");
  CHECK(body.position == Approx(0.42));
  CHECK(chain_volume(g, body, "ceramic") * 2400.0 == Approx(0.068).epsilon(1e-12));
  const double a = std::sqrt(0.068 / 2400.0 / 0.04 / pi);
  const double b = a + 4.0 / pi * 0.05;
  const double cone = pi * (b * b * b - a * a * a) / (3.0 * 4.0 / pi);
  CHECK(chain_volume(g, body, "wood") == Approx(cone).epsilon(1e-12));
}

TEST_CASE("the resistance into deep wood is that of a disc on a half space") {
  // Isothermal disc of radius a on a half space: 1 / (4 a k) (Carslaw & Jaeger 1959, section 8.2;
  // from memory). The wood is 50 m deep here, so that the rest is negligible.
  auto rig = rig_with_bodies();
  auto deep = knob();
  deep.wood_depth = 50.0;
  rig.sheet.run[2].kind = deep;
  const auto g = grid::build(rig.sheet);
  const auto& body = g.bodies[1];
  double resistance = 0.0;
  for (std::size_t i = 0; i + 1 < body.cells; ++i) {
    const bool wood = g.media[g.medium[body.first_cell + i + 1]].part == "wood";
    const bool before = g.media[g.medium[body.first_cell + i]].part == "wood";
    resistance += wood ? body.chain[i].shape_b + (before ? body.chain[i].shape_a : 0.0) : 0.0;
  }
  const double a = std::sqrt(0.068 / 2400.0 / 0.04 / pi);
  CHECK(resistance == Approx(1.0 / (4.0 * a)).epsilon(2e-3));
}

TEST_CASE("a knob is tied to every station under its grip, in proportion to its length") {
  const auto rig = rig_with_bodies();
  const auto g = grid::build(rig.sheet);
  double contact = 0.0;  // W/K of all ties' contacts
  for (const auto& tie : g.bodies[1].ties) {
    CHECK(rig.sheet.run[g.station_piece[tie.station]].name == "K1");
    contact += 1.0 / tie.link.contact;
  }
  const double outer = 2.21625e-3;
  CHECK(contact == Approx(300.0 * 0.5 * 2.0 * pi * outer * 0.04).epsilon(1e-12));
  double free = 0.0;  // area under the knob that still sees the air
  for (std::size_t j = 0; j < g.stations(); ++j) {
    if (rig.sheet.run[g.station_piece[j]].name == "K1") {
      free += g.faces[g.outer_face[j]].area;
    }
  }
  CHECK(free == Approx(0.5 * 2.0 * pi * outer * 0.04).epsilon(1e-12));
}

TEST_CASE("a knob is tied at half its height on every grid") {
  for (const double scale : {0.25, 1.0, 2.0, 3.0, 4.0}) {
    const auto g = grid::build(rig_with_bodies().sheet, scale);
    const auto& body = g.bodies[1];
    std::size_t ceramic = 0;
    for (std::size_t i = 0; i < body.cells; ++i) {
      ceramic += g.media[g.medium[body.first_cell + i]].part == "ceramic" ? 1U : 0U;
    }
    CHECK(2 * body.tied + 1 == ceramic);
  }
}

TEST_CASE("lugs carry their mass, half the leads each, and tie to the last station") {
  const auto rig = rig_with_bodies();
  const auto g = grid::build(rig.sheet);
  for (const std::size_t b : {std::size_t{0}, std::size_t{2}}) {
    const auto& body = g.bodies[b];
    CHECK(chain_volume(g, body, "lug") * 8960.0 == Approx(0.02).epsilon(1e-12));
    CHECK(chain_volume(g, body, "lead") == Approx(1.2 * 16e-6).epsilon(1e-12));
    REQUIRE(body.ties.size() == 1);
    CHECK(body.ties.front().cell == (b == 0 ? 0 : g.stations() - 1));
    double metres_per_area = 0.0;
    for (const double m : body.metres_per_area) {
      metres_per_area += m;
    }
    CHECK(metres_per_area == Approx(1.2 / 16e-6).epsilon(1e-12));
    CHECK(body.contact_resistance == 0.35e-3);
  }
}
