// SPDX-License-Identifier: MIT
// What must hold whatever the numbers are: superposition where the problem is linear, the mirror
// image of a reversed run, and the conservation of energy.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "every_piece.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

constexpr double air = 20.0;
constexpr double accuracy = 1e-4;  // K

/// Every kind of piece with nothing that follows temperature: the rise is linear in the heat made.
Rig linear_run() {
  auto rig =
      every_piece(metal(390, 8900, 385, 1.7241e-8, 0.0), film(12.0, 0.0, air), Gaps::of_a_solid);
  rig.sheet.output.every = 120.0;
  rig.sheet.output.accuracy = accuracy;
  return rig;
}

}  // namespace

TEST_CASE("rises add up where the problem is linear: 30 A and 40 A make 50 A") {
  // 3^2 + 4^2 = 5^2. Each march errs by three times the accuracy asked for at most.
  std::vector<Marched> marched;
  for (const double current : {30.0, 40.0, 50.0}) {
    marched.push_back(run(linear_run().hold(current, 1200).sheet));
  }
  for (std::size_t i = 0; i < marched[0].rows.size(); ++i) {
    for (std::size_t k = 0; k < marched[0].rows[i].probe.size(); ++k) {
      const auto rise = [&](int m) {
        return marched[static_cast<std::size_t>(m)].rows[i].probe[k] - zero_celsius - air;
      };
      CHECK(std::abs(rise(0) + rise(1) - rise(2)) < 9.0 * accuracy);
    }
  }
  CHECK(marched[2].last_celsius() > air + 10.0);
}

TEST_CASE("rises add up in time: a rest is a load less the same load begun later") {
  const auto held = run(linear_run().hold(50, 1200).sheet);
  const auto pulse = run(linear_run().hold(50, 600).rest(600).sheet);
  for (const double t : {720.0, 840.0, 1200.0}) {
    for (std::size_t k = 0; k < held.rows[0].probe.size(); ++k) {
      const double wanted = held.celsius(t, k) - held.celsius(t - 600.0, k);
      CHECK(std::abs(pulse.celsius(t, k) - air - wanted) < 9.0 * accuracy);
    }
  }
}

TEST_CASE("a run walked through from its other end has the same temperatures") {
  auto rig = every_piece(copper(), still_air(air), Gaps::of_air);
  rig.hold(50, 900).rest(300);
  const auto there = run(rig.sheet);
  const auto back = run(reversed(rig.sheet));
  REQUIRE(there.rows.size() == back.rows.size());
  CHECK(there.summary.steps == back.summary.steps);
  double worst = 0.0;
  for (std::size_t i = 0; i < there.rows.size(); ++i) {
    for (std::size_t k = 0; k < there.rows[i].probe.size(); ++k) {
      worst = std::max(worst, std::abs(there.rows[i].probe[k] - back.rows[i].probe[k]));
    }
  }
  CHECK(worst < 1e-8);
}

TEST_CASE("energy closes to round-off over every kind of piece") {
  auto around = still_air(air);
  around.air.push_back({700.0, 5.0 + zero_celsius, 1.0});
  auto rig = every_piece(copper(), around, Gaps::of_air);
  rig.hold(50, 600).rest(300).feed(0.4, 600);
  const auto marched = run(rig.sheet);
  CHECK(marched.summary.ending == marching::Summary::Ending::complete);
  for (const auto& row : marched.rows) {
    CHECK(std::abs(row.ledger.gap()) <= 1e-12 * marched.last().ledger.made);
  }
}
