// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <utility>

#include "instruments/touch.hpp"

namespace {

using namespace ampstair::instruments;
using Kind = Touched::Kind;

constexpr double zero_celsius = 273.15;

double effusivity(double conductivity, double density, double heat_capacity) {
  return std::sqrt(conductivity * density * heat_capacity);
}
double contact(double celsius, double surface_effusivity) {
  return skin_contact(celsius + zero_celsius, surface_effusivity) - zero_celsius;
}

}  // namespace

TEST_CASE("what conducts well brings the skin close to its own temperature") {
  // (b_s T_s + b_skin T_skin) / (b_s + b_skin), skin 33 degC and 1200: computed by hand for copper
  // (401, 8960, 385), porcelain (1.5, 2400, 1050) and oak (0.17, 700, 1700), all at 75 degC.
  CHECK(contact(75.0, effusivity(401.0, 8960.0, 385.0)) == Approx(73.7).margin(0.1));
  CHECK(contact(75.0, effusivity(1.5, 2400.0, 1050.0)) == Approx(59.0).margin(0.1));
  CHECK(contact(75.0, effusivity(0.17, 700.0, 1700.0)) == Approx(44.5).margin(0.1));
  CHECK(contact(33.0, 500.0) == Approx(33.0));
}

TEST_CASE("burn thresholds at the times the standard lists") {
  // ISO 13732-1 (from memory): 1 min 51 / 56 / 60 / 60, 10 min 48, 8 h 43 for every material.
  const auto low = [](Kind kind, double seconds) {
    return burn_band(kind, seconds)->low - zero_celsius;
  };
  CHECK(low(Kind::bare_metal, 60.0) == Approx(51.0));
  CHECK(low(Kind::ceramic, 60.0) == Approx(56.0));
  CHECK(low(Kind::plastic, 60.0) == Approx(60.0));
  CHECK(low(Kind::wood, 60.0) == Approx(60.0));
  for (const Kind kind : {Kind::bare_metal, Kind::ceramic, Kind::plastic, Kind::wood}) {
    CHECK(low(kind, 600.0) == Approx(48.0));
    CHECK(low(kind, 28800.0) == Approx(43.0));
    CHECK(low(kind, 1e6) == Approx(43.0));
  }
  CHECK(low(Kind::bare_metal, 1.0) == Approx(65.0));
  CHECK(burn_band(Kind::bare_metal, 1.0)->high - zero_celsius == Approx(70.0));
}

TEST_CASE("a longer contact never allows a hotter surface, and metal never more than wood") {
  for (const Kind kind : {Kind::bare_metal, Kind::ceramic, Kind::plastic, Kind::wood}) {
    double before = 1e9;
    for (double seconds = 0.5; seconds < 1e5; seconds *= 1.3) {
      const auto band = burn_band(kind, seconds);
      REQUIRE(band);
      CHECK(band->low <= band->high);
      CHECK(band->low <= before);
      CHECK(burn_band(Kind::bare_metal, seconds)->low <= band->low);
      before = band->low;
    }
  }
}

TEST_CASE("contacts shorter than half a second are outside the standard") {
  CHECK_FALSE(burn_band(Kind::wood, 0.4));
  CHECK_FALSE(burn_band(Kind::wood, std::nan("")));
  CHECK(judge_touch(Kind::wood, 400.0, 0.4) == TouchState::outside_scope);
}

TEST_CASE("a touch is below, in or above the band") {
  const auto judged = [](double celsius) {
    return judge_touch(Kind::bare_metal, celsius + zero_celsius, 1.0);
  };
  CHECK(judged(60.0) == TouchState::below);
  CHECK(judged(67.0) == TouchState::in_band);
  CHECK(judged(75.0) == TouchState::above);
}

TEST_CASE("reference figures: what skin and a surface of 75 degC take on between them") {
  // A small independent model ("computed here", skin 33 degC and 1200): copper 73.7,
  // porcelain 59.0, braid 42.1, oak 44.5 degC, held to 2 K or 4 % of the rise over 11 degC. Its
  // braid has an effusivity of 332; that of the braid's own figures (0.07, 600, 1350) is 238, which
  // gives 40.0.
  const double allowed = std::fmax(2.0, 0.04 * (75.0 - 11.0));
  CHECK(contact(75.0, effusivity(390.0, 8890.0, 385.0)) == Approx(73.7).margin(allowed));
  CHECK(contact(75.0, effusivity(1.5, 2400.0, 1050.0)) == Approx(59.0).margin(allowed));
  CHECK(contact(75.0, effusivity(0.07, 600.0, 1350.0)) == Approx(42.1).margin(allowed));
  CHECK(contact(75.0, effusivity(0.07, 600.0, 1350.0)) == Approx(40.0).margin(0.1));
  CHECK(contact(75.0, effusivity(0.17, 700.0, 1700.0)) == Approx(44.5).margin(allowed));
  CHECK(contact(75.0, 332.0) == Approx(42.1).margin(0.05));
}

TEST_CASE("reference figures: long contacts burn at 51, 48 and 43 degC on bare metal") {
  // ISO 13732-1 (from memory): 1 min, 10 min, 8 h.
  const auto judged = [](double celsius, double seconds) {
    return judge_touch(Kind::bare_metal, celsius + zero_celsius, seconds);
  };
  for (const auto& [celsius, seconds] : {std::pair(51.0, 60.0), {48.0, 600.0}, {43.0, 28800.0}}) {
    CHECK(judged(celsius - 0.1, seconds) == TouchState::below);
    CHECK(judged(celsius + 0.1, seconds) == TouchState::above);
  }
}
