// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <utility>
#include <vector>

#include "watch/exceedance.hpp"
#include "watch/tracker.hpp"

using namespace ampstair::watch;

namespace {

using Rows = std::vector<std::pair<double, double>>;  // s, K

Exceedance exceedance(const Rows& rows, double level, double persistence) {
  Exceedance tracked(level, persistence);
  for (const auto& [time, value] : rows) {
    tracked.add(time, value);
  }
  return tracked;
}

Item limit(double kelvin, double persistence = 0.0) {
  Item item;
  item.limit = kelvin;
  item.persistence = persistence;
  return item;
}

State state_of(const Item& item, const Rows& rows) {
  LimitTracker tracker(item);
  for (const auto& [time, value] : rows) {
    tracker.add(time, value);
  }
  return tracker.state();
}

}  // namespace

TEST_CASE("a ramp crosses a limit exactly where the straight line does", "[watch]") {
  // 0.25 K/s from 290 K meets 333.15 K after 43.15 / 0.25 = 172.6 s, wherever the rows lie.
  for (const double every : {1.0, 10.0, 70.0, 400.0}) {
    Exceedance ramp(333.15, 0.0);
    for (double time = 0.0; time <= 400.0; time += every) {
      ramp.add(time, 290.0 + 0.25 * time);
    }
    ramp.add(400.0, 390.0);
    CHECK(ramp.crossed().value() == Approx(172.6).epsilon(1e-12));
    CHECK(ramp.first_above().value() == Approx(172.6).epsilon(1e-12));
    CHECK(ramp.longest() == Approx(400.0 - 172.6).epsilon(1e-12));
    CHECK(ramp.last_above().value() == 400.0);
  }
}

TEST_CASE("a persistence moves a crossing by itself and never less", "[watch]") {
  const Rows ramp = {{0.0, 290.0}, {400.0, 390.0}};
  CHECK(exceedance(ramp, 333.15, 120.0).crossed().value() == Approx(172.6 + 120.0));
  CHECK(exceedance(ramp, 333.15, 120.0).crossing_rose().value() == Approx(172.6));
  CHECK_FALSE(exceedance(ramp, 333.15, 300.0).crossed().has_value());

  std::mt19937 engine(20250301);
  std::uniform_real_distribution<double> step(-8.0, 8.5);
  for (int run = 0; run < 200; ++run) {
    Rows walk = {{0.0, 300.0}};
    for (int row = 1; row < 100; ++row) {
      walk.emplace_back(10.0 * row, walk.back().second + step(engine));
    }
    const auto at_once = exceedance(walk, 310.0, 0.0);
    const auto held = exceedance(walk, 310.0, 60.0);
    CAPTURE(run);
    if (held.crossed()) {
      CHECK(*held.crossed() >= at_once.crossed().value() + 60.0);
      CHECK(*held.crossed() == Approx(held.crossing_rose().value() + 60.0));
    }
    CHECK(held.crossed().has_value() == (at_once.longest() >= 60.0));
  }
}

TEST_CASE("a break starts the persistence anew", "[watch]") {
  // Above 310 K from 50 to 150 s and from 250 s on.
  const Rows rows = {{0.0, 300.0}, {100.0, 320.0}, {200.0, 300.0}, {300.0, 320.0}, {500.0, 320.0}};
  const auto held = exceedance(rows, 310.0, 110.0);
  CHECK(held.first_above().value() == Approx(50.0));
  CHECK(held.crossing_rose().value() == Approx(250.0));
  CHECK(held.crossed().value() == Approx(360.0));
  CHECK(held.longest() == Approx(250.0));
  CHECK(exceedance(rows, 310.0, 100.0).crossed().value() == Approx(150.0));
}

TEST_CASE("touching a limit is not above it", "[watch]") {
  const Rows touch = {{0.0, 300.0}, {10.0, 310.0}, {20.0, 300.0}};
  CHECK_FALSE(exceedance(touch, 310.0, 0.0).crossed().has_value());
  const Rows from_it = {{0.0, 310.0}, {10.0, 310.0}, {20.0, 311.0}};
  CHECK(exceedance(from_it, 310.0, 0.0).crossed().value() == Approx(10.0));
}

TEST_CASE("a series that begins above has crossed at its first row", "[watch]") {
  const Rows rows = {{5.0, 320.0}, {15.0, 300.0}};
  const auto tracked = exceedance(rows, 310.0, 0.0);
  CHECK(tracked.crossed().value() == 5.0);
  CHECK(tracked.last_above().value() == Approx(10.0));
}

TEST_CASE("where there is no number nothing is assumed", "[watch]") {
  const double none = std::nan("");
  const Rows gap = {{0.0, 320.0}, {50.0, 320.0}, {60.0, none}, {70.0, 320.0}, {130.0, 320.0}};
  CHECK_FALSE(exceedance(gap, 310.0, 61.0).crossed().has_value());
  CHECK(exceedance(gap, 310.0, 60.0).crossed().value() == Approx(130.0));

  LimitTracker nothing(limit(310.0));
  nothing.add(0.0, none);
  CHECK(nothing.state() == State::cannot_say);
  nothing.add(1.0, 300.0);
  CHECK(nothing.state() == State::clear);
}

TEST_CASE("two rows at one moment bring no crossing of their own", "[watch]") {
  const Rows rows = {{0.0, 300.0}, {100.0, 309.0}, {100.0, 309.0}, {200.0, 311.0}};
  CHECK(exceedance(rows, 310.0, 0.0).crossed().value() == Approx(150.0));
}

TEST_CASE("a limit is clear, near or crossed", "[watch]") {
  const Rows to_350 = {{0.0, 300.0}, {100.0, 350.0}};
  CHECK(state_of(limit(349.0), to_350) == State::crossed);
  CHECK(state_of(limit(350.0), to_350) == State::near);
  CHECK(state_of(limit(351.99), to_350) == State::near);
  CHECK(state_of(limit(352.01), to_350) == State::clear);
  CHECK(state_of(limit(340.0, 30.0), to_350) == State::near);  // above for 20 s only

  auto banded = limit(360.0);
  banded.low = 345.0;
  CHECK(state_of(banded, to_350) == State::near);
  banded.persistence = 15.0;  // above the low end for 10 s only
  CHECK(state_of(banded, to_350) == State::clear);
}
