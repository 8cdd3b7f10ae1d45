// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "peer_cases.hpp"
#include "peer_cvode.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;
using Solver = CvodeMarch::Solver;

History by_cvode(const scenario::Scenario& sheet, Solver solver, double absolute) {
  const auto grid = grid::build(sheet);
  marching::HeatNetwork network(grid, sheet);
  HistoryKeeper keeper(network, sheet);
  CvodeMarch(sheet, network, solver).march({0.1 * absolute, absolute}, keeper);
  return keeper.history;
}

History by_march(scenario::Scenario sheet, double accuracy) {
  sheet.output.accuracy = accuracy;
  const auto grid = grid::build(sheet);
  marching::HeatNetwork network(grid, sheet);
  HistoryKeeper keeper(network, sheet);
  const auto summary = marching::march(sheet, network, keeper);
  CHECK(summary.ending == marching::Summary::Ending::complete);
  return keeper.history;
}

// Two integrators with nothing in common but the heat balance itself. Each step's estimated error
// is held to the accuracy asked for: the conductor, whose errors are evened out by its capacity and
// by conduction, keeps a part of that; a covering that follows its surroundings at once beside a
// step of the outline may show it all, and what several steps leave there adds up.
constexpr double at_conductor = 1.0;
constexpr double anywhere = 2.0;
// Next to a gap of air, whose conductivity follows its temperature at once and is held during a
// step's solutions, errors fall more slowly than the accuracy asked for.
constexpr double beside_air = 6.0;

void agree(const scenario::Scenario& sheet, const History& peer, double accuracy,
           double allowed = anywhere) {
  const auto ours = by_march(sheet, accuracy);
  const Difference difference = largest_difference(ours, peer);
  INFO("asked for " << accuracy << " K: conductor " << difference.conductor << " K, anywhere "
                    << difference.anywhere << " K");
  CHECK(difference.conductor < at_conductor * accuracy);
  CHECK(difference.anywhere < allowed * accuracy);
}

}  // namespace

TEST_CASE("march and CVODE agree on a covered wire that is loaded and rests") {
  const auto sheet = covered_wire_alone().sheet;
  const auto peer = by_cvode(sheet, Solver::klu, 1e-8);
  agree(sheet, peer, 0.015);
  agree(sheet, peer, 1e-4);
}

TEST_CASE("march and CVODE agree on a tube through a stud") {
  auto sheet = wire_through_stud().sheet;
  sheet.output.grid = 0.02;
  const auto peer = by_cvode(sheet, Solver::klu, 1e-8);
  agree(sheet, peer, 0.015);
  agree(sheet, peer, 1e-4);
}

TEST_CASE("march and CVODE agree on a bare wire between held ends") {
  const auto sheet = bare_wire_between_held_ends().sheet;
  const auto peer = by_cvode(sheet, Solver::banded, 1e-8);
  agree(sheet, peer, 0.015);
  agree(sheet, peer, 1e-4);
}

TEST_CASE("march and CVODE agree on the barn: knobs, lugs, splice, loose sleeve and a gust") {
  auto sheet = barn();
  sheet.output.grid = 0.03;
  sheet.output.radial_cells = 6;
  sheet.output.every = 300.0;
  const auto peer = by_cvode(sheet, Solver::klu, 1e-8);
  agree(sheet, peer, 0.015);
  agree(sheet, peer, 1e-3, beside_air);
}

TEST_CASE("march and CVODE agree on a wire and a sleeve that face wood across air") {
  auto sheet = wire_along_a_joist().sheet;
  sheet.output.grid = 0.05;
  sheet.output.radial_cells = 6;
  const auto peer = by_cvode(sheet, Solver::klu, 1e-8);
  agree(sheet, peer, 0.015);
  agree(sheet, peer, 1e-3, beside_air);
}

TEST_CASE("the banded and the sparse solver make the same of a tube through a stud") {
  auto sheet = wire_through_stud().sheet;
  sheet.output.grid = 0.03;
  sheet.output.radial_cells = 6;
  const auto sparse = by_cvode(sheet, Solver::klu, 1e-6);
  const auto banded = by_cvode(sheet, Solver::banded, 1e-6);
  CHECK(largest_difference(sparse, banded).anywhere < 1e-4);
}
