// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <optional>

#include "even_steps.hpp"
#include "has_order.hpp"
#include "kinds_of_cell.hpp"
#include "marching/march.hpp"
#include "marching/stepper.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

/// Largest difference from a tight march at any output, as a part of the accuracy asked for.
double error_per_accuracy(Rig rig, double every, double accuracy) {
  rig.sheet.output.every = every;
  rig.sheet.output.accuracy = 1e-3 * accuracy;
  const auto tight = run(rig.sheet);
  rig.sheet.output.accuracy = accuracy;
  const auto marched = run(rig.sheet);
  double worst = 0.0;
  for (std::size_t i = 0; i < tight.rows.size(); ++i) {
    worst = std::max(worst, std::abs(marched.rows[i].probe[0] - tight.rows[i].probe[0]));
  }
  return worst / accuracy;
}

scenario::Wire covered() {
  return {copper(),
          1.6276e-3,
          {{"rubber", solid("rubber", 0.16, 1200, 1700), 1.1862e-3},
           {"braid", solid("braid", 0.07, 600, 1340), 0.6e-3}}};
}

struct Deaf : marching::Observer {
  void moment(const marching::Moment&) override {}
  bool advanced(double) override { return true; }
};

/// Time steps of a march, with corners treated as steps ask for or always one way.
std::size_t steps(const Rig& rig, std::optional<marching::Comb::Corners> corners) {
  const auto grid = grid::build(rig.sheet);
  marching::HeatNetwork network(grid, rig.sheet);
  marching::Stepper stepper(network, rig.sheet.start_temperature);
  if (corners) {
    stepper.always(*corners);
  }
  Deaf nobody;
  return marching::march_again(rig.sheet, network, stepper, nobody).steps;
}

}  // namespace

TEST_CASE("order 3 in time: homogeneous rows, an interface, moving surroundings, held ends") {
  for (const Rig& rig : {homogeneous_rows(), layer_interface(), moving_surroundings()}) {
    CHECK_THAT(EvenSteps{}.halve(rig.sheet, 10, 4).anywhere, HasOrder(3.0));
  }
  CHECK_THAT(EvenSteps{}.halve(held_ends().sheet, 20, 4).anywhere, HasOrder(3.0));
}

TEST_CASE("order 3 in time: side bodies") {
  CHECK_THAT(EvenSteps{}.halve(knob_with_wood(1.0, 0.6).sheet, 10, 4).anywhere, HasOrder(3.0));
  CHECK_THAT(EvenSteps{}.halve(lugs_with_leads().sheet, 10, 4).anywhere, HasOrder(3.0));
}

TEST_CASE("order 3 in time: a gap of next to massless gas") {
  CHECK_THAT(EvenSteps{}.halve(gas_gap().sheet, 20, 4).anywhere, HasOrder(3.0));
}

TEST_CASE("order 3 in time: the conductor and all beside a stepped outline") {
  for (const Rig& rig : {sleeve_end(1.0), tube_through_board(1.0)}) {
    const auto found = EvenSteps{}.halve(rig.sheet, 10, 4);
    CHECK_THAT(found.conductor, HasOrder(3.0));
    CHECK_THAT(found.anywhere, HasOrder(3.0));
  }
}

// Where the cells along the wire are finer than the covering is thick, one round about the corners
// leaves more than the error of the scheme. Several leave less, down to some 3e-7 K: what has been
// neglected farther off then begins to show beside the sleeve.
TEST_CASE("order 3 in time: the conductor and all beside a finely resolved step or knob") {
  EvenSteps even;
  even.corners = marching::Comb::Corners::thorough;
  struct Finely {
    Rig rig;
    int count;
  };
  for (const auto& [rig, count] : {Finely{sleeve_end(0.1), 10}, Finely{tube_through_board(0.3), 20},
                                   Finely{knob_with_wood(0.05, 1.0), 20}}) {
    const auto found = even.halve(rig.sheet, count, 4);
    CHECK_THAT(found.conductor, HasOrder(3.0));
    CHECK_THAT(found.anywhere, HasOrder(3.0));
  }
}

TEST_CASE("corners are treated thoroughly where they are what limits the length of steps") {
  using Corners = marching::Comb::Corners;
  for (Rig rig : {sleeve_end(0.1), knob_with_wood(0.05, 1.0)}) {
    rig.sheet.output.accuracy = 1e-3;
    CHECK(4 * steps(rig, {}) < 3 * steps(rig, Corners::brief));
  }
  auto coarse = sleeve_end(1.0);
  coarse.sheet.output.accuracy = 1e-3;
  CHECK(steps(coarse, {}) == steps(coarse, Corners::brief));
}

// The conductivity of air is a table with a corner at 300 K, and where a gap passes it the error
// has no one power of the step; so the current is small: the gaps stay below 299 K.
TEST_CASE("order 3 in time: gaps of air, round the wire and in front of wood") {
  for (Rig rig : {air_gap(), facing_wood()}) {
    rig.sheet.staircase.back().level = 12.0;
    rig.sheet.staircase.back().duration = 400.0;
    const auto found = EvenSteps{}.halve(rig.sheet, 10, 4);
    CHECK_THAT(found.conductor, HasOrder(3.0));
    CHECK_THAT(found.anywhere, HasOrder(3.0));
  }
}

TEST_CASE("the time error keeps to the accuracy asked for, within a factor of three") {
  auto covering = long_wire(covered(), film(8.0, 0.9, 20.0));
  covering.hold(50, 900).hold(70, 900).rest(900);
  auto bare = long_wire({copper(), 1.6276e-3, {}}, film(10.0, 0.3, 20.0));
  bare.hold(40, 300).rest(300);
  auto adiabatic = long_wire({copper(), 1.6276e-3, {}}, film(0.0, 0.0, 30.0));
  adiabatic.hold(100, 15.6);
  for (const double accuracy : {0.1, 0.03, 0.003}) {
    INFO("accuracy " << accuracy << " K");
    CHECK(error_per_accuracy(covering, 10.0, accuracy) < 3.0);
    CHECK(error_per_accuracy(bare, 5.0, accuracy) < 3.0);
    CHECK(error_per_accuracy(adiabatic, 0.2, accuracy) < 3.0);
  }
}
