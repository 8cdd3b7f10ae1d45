// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "watch/settling_rule.hpp"

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

/// When a rule first holds for a series that begins at `begin`, looked at piece by piece.
template <class Series>
std::optional<double> settles(SettlingRule rule, Series series, double length, double begin = 0.0,
                              double end = 40000.0) {
  SettlingWatch watch(rule);
  watch.restart(begin);
  for (double time = begin; time < end; time += length) {
    watch.add(piece(series, time, length));
  }
  return watch.settled();
}

}  // namespace

TEST_CASE("rules hold for an exponential when their formulas say", "[watch]") {
  // 40 K and tau 600 s, 3600 s; 100 K and 7200 s. In an hour: tau ln(dT (exp(h / tau) - 1) / c) for
  // c of 1 and 2 K. Readings 5 min apart, and a tenth of the time elapsed apart: 2700, 2400, 7200,
  // 9415, 15600, 29549 s (computed from the exponential, the rules as published).
  struct Case {
    double rise, tau, readings, tenths;
  };
  for (const Case& c : {Case{40.0, 600.0, 2700.0, 2400.0}, Case{40.0, 3600.0, 7200.0, 9415.3},
                        Case{100.0, 7200.0, 15600.0, 29549.3}}) {
    const auto series = [&](double t) { return 293.15 + c.rise * (1.0 - std::exp(-t / c.tau)); };
    const auto in_an_hour = [&](double kelvin) {
      return c.tau * std::log(c.rise * (std::exp(3600.0 / c.tau) - 1.0) / kelvin);
    };
    for (const double length : {10.0, 23.7, 301.0}) {
      CAPTURE(c.tau, length);
      const double close = length > 100.0 ? 1.0 : 0.05;  // a cubic of 301 s is not the exponential
      CHECK(settles(SettlingRule::one_kelvin_in_an_hour, series, length).value() ==
            Approx(in_an_hour(1.0)).margin(close));
      CHECK(settles(SettlingRule::two_kelvin_in_an_hour, series, length).value() ==
            Approx(in_an_hour(2.0)).margin(close));
      CHECK(settles(SettlingRule::one_kelvin_in_readings, series, length).value() == c.readings);
      CHECK(settles(SettlingRule::no_change_by_tenths, series, length).value() ==
            Approx(c.tenths).margin(0.1));
    }
  }
}

TEST_CASE("readings are counted from where the step begins", "[watch]") {
  const auto flat = [](double) { return 300.0; };
  CHECK(settles(SettlingRule::one_kelvin_in_readings, flat, 40.0, 1234.5).value() == 1834.5);
  CHECK(settles(SettlingRule::no_change_by_tenths, flat, 40.0, 1234.5).value() == 1834.5);
  CHECK(settles(SettlingRule::one_kelvin_in_an_hour, flat, 40.0, 1234.5).value() ==
        Approx(1234.5 + 3600.0).margin(1e-6));
}

TEST_CASE("a series that goes on rising settles by no rule", "[watch]") {
  const auto steep = [](double t) { return 300.0 + t * 3.0 / 300.0; };
  for (const auto rule :
       {SettlingRule::one_kelvin_in_an_hour, SettlingRule::two_kelvin_in_an_hour,
        SettlingRule::one_kelvin_in_readings, SettlingRule::no_change_by_tenths}) {
    CHECK_FALSE(settles(rule, steep, 60.0));
    CHECK(rule_called(word_of(rule)) == rule);
  }
  CHECK_FALSE(rule_called("settled"));
}
