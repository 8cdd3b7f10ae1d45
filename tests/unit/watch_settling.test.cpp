// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "watch/settling.hpp"

using namespace ampstair::watch;

namespace {

template <class Series>
CubicPiece piece(Series series, double begin, double length) {
  CubicPiece made{begin, length, {}};
  for (std::size_t k = 0; k < made.value.size(); ++k) {
    made.value[k] = series(begin + length * static_cast<double>(k) / 3.0);
  }
  return made;
}

template <class Tracker, class Series>
Tracker follow(Tracker tracker, Series series, double until, double length) {
  for (double begin = 0.0; begin < until; begin += length) {
    tracker.add(piece(series, begin, length));
  }
  return tracker;
}

const SettledByRate by_rate(settled_rate);
const SettledByChange by_change(settled_change, settled_span);

}  // namespace

TEST_CASE("an exponential settles by both readings of 1 K in 1 h when its formula says",
          "[watch]") {
  // 40 K, T = 40 (1 - exp(-t / tau)): the slope falls to 1 K/h at tau ln(40 h / tau); the change
  // over the hour before falls to 1 K at tau ln(40 (exp(h / tau) - 1)). Computed here: 3288.4 and
  // 5811.8 s for tau 600 s, 13280.0 and 15228.7 s for tau 3600 s.
  struct Case {
    double tau, by_slope, by_hour;
  };
  for (const Case& c : {Case{600.0, 3288.38, 5811.84}, Case{3600.0, 13279.97, 15228.66}}) {
    const auto series = [&](double t) { return 293.15 + 40.0 * (1.0 - std::exp(-t / c.tau)); };
    const double rate_time = c.tau * std::log(40.0 * 3600.0 / c.tau);
    const double hour_time = c.tau * std::log(40.0 * (std::exp(3600.0 / c.tau) - 1.0));
    CHECK(rate_time == Approx(c.by_slope).margin(0.01));
    CHECK(hour_time == Approx(c.by_hour).margin(0.01));
    CHECK(follow(by_rate, series, 20000.0, 10.0).since().value() == Approx(rate_time).margin(0.01));
    CHECK(follow(by_change, series, 20000.0, 10.0).since().value() ==
          Approx(hour_time).margin(0.01));
    // The readings need not fall on the joints of the pieces.
    CHECK(follow(by_change, series, 20000.0, 23.7).since().value() ==
          Approx(hour_time).margin(0.01));
  }
}

TEST_CASE("the turn of a series is no settling, what comes after it may be", "[watch]") {
  // 310 + 5 sin(t / 300 s): its slope is within 1 K/h only near the turns at (n + 1/2) pi 300 s.
  const auto wave = [](double t) { return 310.0 + 5.0 * std::sin(t / 300.0); };
  CHECK_FALSE(follow(by_rate, wave, 600.0, 20.0).since().has_value());
  // Held from the first turn on: then since cos(t / 300) = 300 / (5 x 3600), 466.24 s.
  const double turn = 150.0 * std::acos(-1.0);
  const auto held = [&](double t) { return wave(std::min(t, turn)); };
  CHECK(follow(by_rate, held, 1000.0, turn / 24.0).since().value() ==
        Approx(300.0 * std::acos(300.0 / (5.0 * 3600.0))).margin(0.01));
}

TEST_CASE("a change needs a whole span to look back on", "[watch]") {
  const auto flat = [](double) { return 300.0; };
  CHECK_FALSE(follow(by_change, flat, 3590.0, 10.0).since().has_value());
  CHECK(follow(by_change, flat, 3700.0, 10.0).since().value() == Approx(3600.0));
  CHECK(follow(by_rate, flat, 10.0, 10.0).since().value() == 0.0);
}

TEST_CASE("a jump breaks the settling by change and it begins anew an hour later", "[watch]") {
  const auto jump = [](double t) { return t < 5000.0 ? 300.0 : 302.0; };
  CHECK_FALSE(follow(by_change, jump, 8000.0, 50.0).since().has_value());
  // Down to 1 K of difference on the cubic across the jump only, which is one piece of 50 s long.
  CHECK(follow(by_change, jump, 9000.0, 50.0).since().value() == Approx(8575.0).margin(50.0));
}
