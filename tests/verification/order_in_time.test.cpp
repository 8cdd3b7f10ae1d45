// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "observed_order.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

/// Marches of ever tighter accuracy against a much tighter one, at the ends of the steps of the
/// staircase, where no dense output enters.
struct Study {
  std::vector<double> step;   // 1 / number of time steps
  std::vector<double> error;  // K
};

Study study(Rig rig, const std::vector<double>& accuracies) {
  rig.sheet.output.every = 1e5;
  rig.sheet.output.accuracy = 0.01 * accuracies.back();
  const auto tight = run(rig.sheet);
  Study found;
  for (const double accuracy : accuracies) {
    rig.sheet.output.accuracy = accuracy;
    const auto marched = run(rig.sheet);
    double worst = 0.0;
    for (std::size_t i = 0; i < tight.rows.size(); ++i) {
      for (std::size_t k = 0; k < rig.sheet.probes.size(); ++k) {
        worst = std::max(worst, std::abs(marched.rows[i].probe[k] - tight.rows[i].probe[k]));
      }
    }
    found.step.push_back(1.0 / static_cast<double>(marched.summary.steps));
    found.error.push_back(worst);
    UNSCOPED_INFO(accuracy << " K asked: " << marched.summary.steps << " steps, " << worst << " K");
  }
  return found;
}

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

}  // namespace

TEST_CASE("order 3 in time: jumps of current in a covered wire") {
  auto rig = long_wire(covered(), film(8.0, 0.9, 20.0));
  rig.hold(50, 900).hold(70, 900).rest(900);
  const auto found = study(rig, {0.1, 0.03, 0.01, 0.003, 0.001});
  CHECK(observed_order(found.step, found.error) == Approx(3.0).margin(0.3));
}

TEST_CASE("order 3 in time: a tube through wood, with its nearly massless gap") {
  scenario::Tube tube;
  tube.body = solid("porcelain", 1.7, 2400, 900);
  tube.bore = 8e-3;
  tube.outer = 16e-3;
  tube.gap = solid("gap", 0.05, 1.0, 1005);
  tube.wood = solid("wood", 0.13, 500, 1700);
  tube.wood_thickness = 0.038;
  tube.wood_radius = 0.045;
  Rig rig(covered(), film(8.0, 0.9, 20.0));
  rig.insulated_end().piece("a", 0.55).piece("T1", 0.1, tube).piece("b", 0.55).insulated_end();
  rig.conductor_probe(0.6).conductor_probe(0.65).conductor_probe(0.3);
  rig.radius_probe(0.6, 8e-3).radius_probe(0.645, 8e-3).surface_probe(0.66);
  rig.hold(50, 900).hold(70, 900);
  rig.sheet.output.grid = 0.02;
  const auto found = study(rig, {0.03, 0.01, 0.003, 0.001});
  CHECK(observed_order(found.step, found.error) == Approx(3.0).margin(0.3));
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
