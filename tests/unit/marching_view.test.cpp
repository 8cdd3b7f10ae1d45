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

scenario::Wire covered() {
  return {metal(401, 8960, 385, 1.7241e-8, 0.0),
          2.0525e-3,
          {{"rubber", solid("rubber", 0.15, 1150, 1700), 1.19e-3},
           {"braid", solid("braid", 0.07, 600, 1350), 0.5e-3}}};
}

}  // namespace

TEST_CASE("temperatures on faces and between them are those of the layered cylinder") {
  auto rig = long_wire(covered(), film(12.0, 0.0, 20.0));
  const double radii[] = {0.0, 0.5e-3, 1.02625e-3, 1.5e-3, 2.0e-3, 2.21625e-3, 2.4e-3, 2.71625e-3};
  for (const double r : radii) {
    rig.radius_probe(0.5, r);
  }
  rig.part_probe(0.5, "braid").part_probe(0.5, "rubber").hold(40, 1e5);
  rig.sheet.output.every = 1e5;
  const auto marched = run(rig.sheet);
  const LayeredCylinder exact{1.02625e-3, {{2.21625e-3, 0.15}, {2.71625e-3, 0.07}}, 12.0};
  const double area = pi * 1.02625e-3 * 1.02625e-3;
  const double q = 1600.0 * 1.7241e-8 / area;
  const auto celsius = [&](double r) { return 20.0 + q * exact.resistance_from(r); };
  CHECK(marched.last_celsius(0) == Approx(celsius(1.02625e-3)).margin(1e-4));
  CHECK(marched.last_celsius(1) == Approx(celsius(2.71625e-3)).margin(1e-4));
  for (std::size_t k = 0; k < 8; ++k) {
    const double r = radii[k];
    const double inside =
        r < 1.02625e-3 ? q / (4.0 * pi * 401.0) * (1.0 - std::pow(r / 1.02625e-3, 2)) : 0.0;
    INFO("radius " << r);
    CHECK(marched.last_celsius(2 + k) ==
          Approx(celsius(std::max(r, 1.02625e-3)) + inside).margin(1e-4));
  }
  CHECK(marched.last_celsius(10) == Approx(celsius(2.21625e-3)).margin(1e-4));
  CHECK(marched.last_celsius(11) == Approx(celsius(1.02625e-3)).margin(1e-4));
}

TEST_CASE("the surface of a bare wire is its conductor, lugs and knobs or not") {
  scenario::Knob knob;
  knob.body = solid("porcelain", 1.5, 2400, 1050);
  knob.mass = 0.068;
  knob.height = 0.04;
  knob.grip_conductance = 300.0;
  Rig rig({copper(), 2.0525e-3, {}}, still_air(11));
  rig.piece("A", 0.0, scenario::Lug{1e-3, 0.02, 5.0, 1e-3, false})
      .piece("a", 0.2)
      .piece("K1", 0.04, knob)
      .piece("b", 0.2)
      .insulated_end();
  rig.hold(40, 300);
  const auto grid = grid::build(rig.sheet);
  marching::HeatNetwork network(grid, rig.sheet);
  marching::View view(network, rig.sheet);
  const auto marched = run(rig.sheet);
  marching::Moment moment;
  moment.time = marched.last().time;
  moment.temperature = marched.last().temperature;
  std::vector<double> surface(grid.stations());
  view.surfaces(moment, surface);
  for (std::size_t j = 0; j < grid.stations(); ++j) {
    INFO("at " << grid.station_centre[j]);
    CHECK(surface[j] == Approx(marched.last().temperature[j]).margin(1e-6));
  }
}

TEST_CASE("parts list every covering but the innermost, and side bodies, in order along the run") {
  scenario::Knob knob;
  knob.body = solid("porcelain", 1.5, 2400, 1050);
  knob.mass = 0.068;
  knob.height = 0.04;
  knob.grip_conductance = 300.0;
  knob.wood = solid("wood", 0.12, 480, 1600);
  knob.base_conductance = 100.0;
  knob.wood_depth = 0.03;
  Rig rig(covered(), still_air(11));
  rig.insulated_end()
      .piece("a", 0.1)
      .piece("K1", 0.04, knob)
      .piece("b", 0.1)
      .piece("drop", 0.1, scenario::Sleeve{solid("sleeving", 0.08, 700, 1400), 1.2e-3, 0.5e-3})
      .piece("K2", 0.04, knob)
      .insulated_end();
  const auto grid = grid::build(rig.sheet);
  const marching::HeatNetwork network(grid, rig.sheet);
  const marching::View view(network, rig.sheet);
  std::vector<std::string> names;
  for (const auto& part : view.parts()) {
    names.push_back(part.name);
    CHECK(std::is_sorted(part.position.begin(), part.position.end()));
    if (part.name == "braid") {
      CHECK(part.everywhere);
    }
    if (part.name == "ceramic" || part.name == "wood") {
      REQUIRE(part.position.size() == 2);
      CHECK(part.position[0] == Approx(0.12));
      CHECK(part.position[1] == Approx(0.36));
    }
  }
  CHECK(names == std::vector<std::string>{"braid", "sleeve", "ceramic", "wood"});
}

TEST_CASE(
    "surfaces watched in small moves, in leaps and in another air balance what comes and goes") {
  auto rig = long_wire(covered(), still_air(11));
  rig.sheet.surroundings[0].air.push_back({600.0, 280.0, 3.0});
  const auto grid = grid::build(rig.sheet);
  marching::HeatNetwork network(grid, rig.sheet);
  marching::View view(network, rig.sheet);
  std::vector<double> temperature(grid.cells, 284.15);
  std::vector<double> surface(grid.stations());
  marching::Moment moment;
  const double kelvins[] = {284.15, 284.6, 285.0, 284.7, 330.0, 330.4, 330.0, 420.0};
  for (std::size_t i = 0; i < std::size(kelvins); ++i) {
    moment.time = i < 6 ? 10.0 * static_cast<double>(i) : 600.0 + static_cast<double>(i);
    std::fill(temperature.begin(), temperature.end(), kelvins[i]);
    moment.temperature = temperature;
    view.surfaces(moment, surface);
    const auto& face = grid.faces[grid.outer_face[0]];
    const heat::FaceKind kind{heat::FaceKind::To::air, heat::Shape::horizontal_cylinder,
                              grid.exposures[face.exposure].length,
                              grid.exposures[face.exposure].emissivity};
    const heat::Exchange exchange(kind, rig.sheet.surroundings[0], moment.time);
    INFO("cells at " << kelvins[i] << " K, " << moment.time << " s");
    const double comes =
        network.conductivity(face.cell) * face.shape / face.area * (kelvins[i] - surface[0]);
    CHECK(comes == Approx(exchange.at(surface[0]).value).margin(1e-5));
  }
}

TEST_CASE("a surface that a knob covers in part gives on what comes to it through its cell") {
  Rig rig(covered(), still_air(11));
  scenario::Knob knob;
  knob.body = solid("porcelain", 1.5, 2400, 1050);
  knob.mass = 0.068;
  knob.height = 0.04;
  knob.covers = 0.6;
  knob.grip_conductance = 300.0;
  rig.insulated_end().piece("a", 0.1).piece("K", 0.04, knob).piece("b", 0.1).insulated_end();
  const auto grid = grid::build(rig.sheet);
  marching::HeatNetwork network(grid, rig.sheet);
  marching::View view(network, rig.sheet);
  const auto& body = grid.bodies.front();
  const std::size_t head = body.first_cell + body.tied;
  std::vector<double> temperature(grid.cells, 370.0);
  std::fill_n(temperature.begin() + static_cast<std::ptrdiff_t>(body.first_cell), body.cells,
              300.0);
  std::vector<double> net(grid.cells, 0.0), surface(grid.stations());
  const auto totals = network.rates(temperature, net, true);
  marching::Moment moment;
  moment.temperature = temperature;
  view.surfaces(moment, surface);
  for (const auto& tie : body.ties) {
    const auto& face = grid.faces[tie.face];
    CHECK(face.shape * tie.link.shape_a == Approx(1.0));
    const double comes =
        (370.0 - surface[tie.station]) * network.conductivity(tie.cell) * face.shape;
    const double to_knob = (surface[tie.station] - 300.0) /
                           (tie.link.shape_b / network.conductivity(head) + tie.link.contact);
    const heat::FaceKind kind{heat::FaceKind::To::air, heat::Shape::horizontal_cylinder,
                              grid.exposures[face.exposure].length,
                              grid.exposures[face.exposure].emissivity};
    const heat::Exchange exchange(kind, rig.sheet.surroundings[0], 0.0);
    const double to_air = exchange.at(surface[tie.station]).value * face.area;
    CHECK(comes == Approx(to_knob + to_air).epsilon(1e-7));
    CHECK(network.surface(tie.face, temperature) == Approx(surface[tie.station]).epsilon(1e-9));
  }
  double sum = 0.0;
  for (std::size_t c = 0; c < grid.cells; ++c) {
    sum += grid.volume[c] > 0.0 ? net[c] : 0.0;
  }
  CHECK(sum == Approx(totals.made - totals.lost).epsilon(1e-12));
}
