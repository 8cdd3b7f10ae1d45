// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstddef>
#include <random>
#include <utility>
#include <vector>

#include "marching/comb.hpp"
#include "marching_dense.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;
using marching::HeatNetwork;

scenario::Knob knob() {
  scenario::Knob knob;
  knob.body = solid("porcelain", 1.5, 2400, 1050);
  knob.mass = 0.068;
  knob.height = 0.04;
  knob.covers = 0.7;
  knob.grip_conductance = 300.0;
  knob.wood = solid("wood", 0.12, 480, 1600);
  knob.base_conductance = 100.0;
  knob.wood_depth = 0.03;
  return knob;
}

scenario::Tube tube() {
  scenario::Tube tube;
  tube.body = solid("porcelain", 1.5, 2400, 1050);
  tube.bore = 9.5e-3;
  tube.outer = 16e-3;
  auto wood = solid("wood", 0.12, 480, 1600);
  wood->heat_capacity = {{280.0, 420.0}, {1186.0, 1727.0}};  // some cells march enthalpy
  tube.wood = wood;
  tube.wood_thickness = 0.03;
  tube.wood_radius = 0.02;
  return tube;
}

/// Covered wire with two knobs, two lugs and their leads, a tube beside a loose sleeve that faces
/// wood.
Rig everything() {
  Rig rig({copper(),
           2.0525e-3,
           {{"rubber", solid("rubber", 0.15, 1150, 1700), 1.19e-3},
            {"braid", solid("braid", 0.07, 600, 1350), 0.5e-3}}},
          still_air(11));
  rig.sheet.supply.lead = {1.0, 16e-6, 1e-3, copper()};
  rig.piece("A", 0.0, scenario::Lug{0.35e-3, 0.02, 5.0, 1e-3, true})
      .piece("a", 0.1)
      .piece("K1", 0.04, knob())
      .piece("b", 0.1)
      .piece("T1", 0.06, tube())
      .piece("drop", 0.05, scenario::Sleeve{solid("sleeving", 0.08, 700, 1400), 1.2e-3, 0.5e-3})
      .faces({solid("joist", 0.12, 480, 1600), 1e-3, 4e-3, 0.03, 4e-3})
      .piece("K2", 0.04, knob())
      .piece("B", 0.0, scenario::Lug{0.35e-3, 0.02, 5.0, 1e-3, true});
  rig.sheet.output.grid = 0.03;
  rig.sheet.output.radial_cells = 5;
  return rig;
}

/// The same without covering: knobs, lugs and wood that is faced tie to the conductor itself.
Rig bare() {
  Rig rig({copper(), 2.0525e-3, {}}, still_air(11));
  rig.piece("A", 0.0, scenario::Lug{0.35e-3, 0.02, 5.0, 1e-3, false})
      .piece("a", 0.2)
      .piece("K1", 0.04, knob())
      .piece("b", 0.1)
      .faces({solid("joist", 0.12, 480, 1600), 2e-3, 4e-3, 0.03, 4e-3})
      .piece("tight", 0.05, scenario::Sleeve{solid("sleeving", 0.08, 700, 1400), 1.2e-3, 0.0})
      .insulated_end();
  rig.sheet.output.grid = 0.02;
  return rig;
}

/// The first of them with all of it in a closed bay.
Rig in_bay() {
  Rig rig = everything();
  rig.sheet.surroundings.front().bay = 0;
  rig.sheet.bays = {{20.0, 300.0, 2.0, 1.0}};
  return rig;
}

/// Whether a station lies within 2 mm of a step of the outline.
bool beside_step(const grid::Grid& g, std::size_t station) {
  for (std::size_t j = 1; j < g.stations(); ++j) {
    if (g.top_patch[j] != g.top_patch[j - 1] &&
        std::abs(g.station_face[j] - g.station_centre[station]) < 2e-3) {
      return true;
    }
  }
  return false;
}

/// A network at a state drawn by lot, and a right-hand side.
struct Drawn {
  Rig rig;  // the network refers to its sheet
  grid::Grid g;
  HeatNetwork network;
  std::vector<double> temperature, slope, rhs;

  explicit Drawn(Rig laid)
      : rig(std::move(laid)), g(grid::build(rig.sheet)), network(g, rig.sheet) {
    network.set_drive({scenario::Step::Kind::hold_current, 60.0});
    std::mt19937 random(20260311);
    std::uniform_real_distribution<double> part(0.0, 1.0);
    std::vector<double> net(g.cells);
    temperature.resize(g.cells);
    slope.assign(g.cells, 1.0);
    for (auto& t : temperature) {
      t = 290.0 + 200.0 * part(random);
    }
    for (const std::size_t c : network.enthalpy_cells()) {
      slope[c] = 0.3 + 0.7 * part(random);
    }
    network.rates(temperature, net, true);
    rhs.resize(g.cells);
    for (std::size_t c = 0; c < g.cells; ++c) {
      rhs[c] = holds(c) ? (part(random) - 0.5) * network.capacity()[c] : 0.0;
    }
  }
  /// Whether a cell is none of the padding.
  [[nodiscard]] bool holds(std::size_t cell) const {
    const auto& bays = g.bays;
    return g.volume[cell] > 0.0 || std::any_of(bays.begin(), bays.end(), [&](const auto& bay) {
             return cell == bay.air_cell || cell == bay.walls_cell;
           });
  }
  [[nodiscard]] Eigen::VectorXd right() const {
    return Eigen::Map<const Eigen::VectorXd>(rhs.data(), at(rhs.size()));
  }
};

double worst_part(const std::vector<double>& x, const Eigen::VectorXd& wanted) {
  const Eigen::Map<const Eigen::VectorXd> found(x.data(), at(x.size()));
  return (found - wanted).cwiseAbs().maxCoeff() / wanted.cwiseAbs().maxCoeff();
}

/// Largest difference between the comb's answer and a dense one, as a part of the largest value.
double worst_difference(const Rig& rig, double s) {
  const Drawn drawn(rig);
  marching::Comb comb(drawn.network);
  comb.factor(s, drawn.slope, marching::Comb::Corners::neglected);
  const Eigen::VectorXd exact = Dense(drawn.network, s, drawn.slope, comb.axial())
                                    .product(s)
                                    .partialPivLu()
                                    .solve(drawn.right());
  std::vector<double> x = drawn.rhs;
  comb.solve(x);
  return worst_part(x, exact);
}

}  // namespace

TEST_CASE("the comb solves the very matrix it says it factors") {
  for (const double s : {1e-3, 0.3, 30.0, 3e4}) {
    INFO("s " << s);
    CHECK(worst_difference(everything(), s) < 1e-9);
    CHECK(worst_difference(bare(), s) < 1e-9);
  }
}

TEST_CASE("the comb needs no side bodies") {
  Rig rig({copper(), 2.0525e-3, {{"rubber", solid("rubber", 0.15, 1150, 1700), 1.19e-3}}},
          still_air(11));
  rig.insulated_end().piece("wire", 0.3).insulated_end();
  CHECK(worst_difference(rig, 1.0) < 1e-12);
}

TEST_CASE("a stage filled row by row solves for the same right-hand side as one filled at once") {
  Drawn drawn(everything());
  const double s = 7.0;
  marching::Comb comb(drawn.network);
  comb.factor(s, drawn.slope);
  std::vector<double> net(drawn.g.cells);
  drawn.network.rates(drawn.temperature, net, false);
  const double weight[] = {0.7, -0.2};
  std::vector<double> x(drawn.g.cells, 0.0), at_once(drawn.g.cells, 0.0);
  const marching::StageView stages{{drawn.rhs.data(), drawn.temperature.data()}};
  comb.solve_stage({s, 2, weight, stages, drawn.temperature.data(), x.data()});
  for (std::size_t c = 0; c < drawn.g.cells; ++c) {
    if (drawn.g.volume[c] > 0.0) {
      at_once[c] = s * net[c] + drawn.network.capacity()[c] *
                                    (weight[0] * drawn.rhs[c] + weight[1] * drawn.temperature[c]);
    }
  }
  comb.solve(at_once);
  for (std::size_t c = 0; c < drawn.g.cells; ++c) {
    if (drawn.g.volume[c] > 0.0) {
      CHECK(x[c] == Approx(at_once[c]).epsilon(1e-9).margin(1e-9));
    }
  }
}

TEST_CASE("what the cells gain is what the right-hand side brings and the booked heat takes") {
  using Corners = marching::Comb::Corners;
  for (const Rig& rig : {everything(), in_bay()}) {
    for (const auto corners : {Corners::neglected, Corners::brief, Corners::thorough}) {
      for (const double s : {1e-3, 0.3, 30.0, 3e4}) {
        const Drawn drawn(rig);
        marching::Comb comb(drawn.network);
        comb.factor(s, drawn.slope, corners);
        std::vector<double> x = drawn.rhs;
        const auto booked = comb.solve(x);
        double gained = 0.0;
        double brought = 0.0;
        double turnover = 0.0;
        for (std::size_t c = 0; c < drawn.g.cells; ++c) {
          const double gain =
              drawn.holds(c) ? drawn.network.capacity()[c] / drawn.slope[c] * x[c] : 0.0;
          gained += gain;
          brought += drawn.rhs[c];
          turnover += std::abs(drawn.rhs[c]) + std::abs(gain);
        }
        INFO("s " << s);
        CHECK(gained == Approx(brought + booked.made - booked.lost).margin(1e-11 * turnover));
      }
    }
  }
}

TEST_CASE("further passes bring the factors nearer to the operator itself at a tube's mouth") {
  Rig rig = everything();
  rig.sheet.output.grid = 0.01;  // cells of 0.8 mm beside the mouth
  const double s = 20.0;
  Drawn drawn(rig);
  // A change as a march sees it: the covering beside the mouth cools, and heat turns round it.
  std::vector<double> even(drawn.g.cells, 300.0);
  for (std::size_t j = 0; j < drawn.g.stations(); ++j) {
    even[j] = 400.0;
  }
  drawn.network.rates(even, drawn.rhs, true);
  for (std::size_t c = 0; c < drawn.g.cells; ++c) {
    drawn.rhs[c] = drawn.g.volume[c] > 0.0 ? s * drawn.rhs[c] : 0.0;
  }
  std::fill(drawn.slope.begin(), drawn.slope.end(), 1.0);
  const marching::AxialFactor any(drawn.network);
  const Eigen::VectorXd exact =
      Dense(drawn.network, s, drawn.slope, any).exact(s).partialPivLu().solve(drawn.right());
  const auto away = [&](marching::Comb::Corners corners) {
    marching::Comb comb(drawn.network);
    comb.factor(s, drawn.slope, corners);
    std::vector<double> x = drawn.rhs;
    comb.solve(x);
    double sum = 0.0;
    for (std::size_t j = 0; j < drawn.g.stations(); ++j) {
      for (const std::size_t c : column_at(drawn.g, j).cells) {
        const double wrong = beside_step(drawn.g, j) ? x[c] - exact(at(c)) : 0.0;
        sum += drawn.network.capacity()[c] * wrong * wrong;
      }
    }
    return std::sqrt(sum);
  };
  const double neglected = away(marching::Comb::Corners::neglected);
  const double brief = away(marching::Comb::Corners::brief);
  const double thorough = away(marching::Comb::Corners::thorough);
  INFO("wrong by " << neglected << " after one pass, by " << brief << " after two, by " << thorough
                   << " after five, (J K)^1/2");
  CHECK(brief < 0.6 * neglected);
  CHECK(thorough < 0.3 * brief);
}
