// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "watch/dose.hpp"
#include "watch/tracker.hpp"

using namespace ampstair::watch;

namespace {

constexpr double celsius_zero = 273.15;
constexpr double hour = 3600.0;

// Reference figures, from the law itself: exp(E/R (1/323.15 - 1/363.15)) with R = 8.314462618.
constexpr double ratio_90_kj = 40.0;
constexpr double ratio_135_kj = 253.0;

}  // namespace

TEST_CASE("ageing from 50 to 90 degC speeds up as the Arrhenius law says", "[watch]") {
  const double reference = 50.0 + celsius_zero;
  const double hot = 90.0 + celsius_zero;
  CHECK(arrhenius_ratio(90.0e3, hot, reference) == Approx(ratio_90_kj).epsilon(0.005));
  CHECK(arrhenius_ratio(135.0e3, hot, reference) == Approx(ratio_135_kj).epsilon(0.005));
  CHECK(arrhenius_ratio(135.0e3, reference, reference) == 1.0);

  ArrheniusDose dose(90.0e3, reference, 1000.0 * hour);
  dose.add(0.0, hot);
  dose.add(10.0 * hour, hot);
  CHECK(dose.equivalent() == Approx(ratio_90_kj * 10.0 * hour).epsilon(0.005));
}

TEST_CASE("at the reference temperature a dose is the time itself", "[watch]") {
  ArrheniusDose dose(110.0e3, 323.15, 2.0 * hour);
  dose.add(0.0, 323.15);
  dose.add(3.0 * hour, 323.15);
  CHECK(dose.equivalent() == Approx(3.0 * hour));
  CHECK(dose.full_at().value() == Approx(2.0 * hour));
}

TEST_CASE("a dose over a ramp does not hang on how finely it was sampled", "[watch]") {
  // 20 to 200 degC in an hour: the ratio grows by a factor of millions.
  const auto ramp = [](int rows) {
    ArrheniusDose dose(110.0e3, 323.15, 1000.0 * hour);
    for (int row = 0; row <= rows; ++row) {
      const double part = static_cast<double>(row) / rows;
      dose.add(part * hour, 293.15 + 180.0 * part);
    }
    return dose;
  };
  const auto fine = ramp(20000);
  CHECK(ramp(1).equivalent() == Approx(fine.equivalent()).epsilon(1e-5));
  CHECK(ramp(7).equivalent() == Approx(fine.equivalent()).epsilon(1e-5));
  CHECK(ramp(1).full_at().value() == Approx(fine.full_at().value()).epsilon(1e-6));
}

TEST_CASE("a gap in the series counts for nothing", "[watch]") {
  ArrheniusDose dose(110.0e3, 323.15, hour);
  dose.add(0.0, 323.15);
  dose.add(600.0, 323.15);
  dose.add(700.0, std::nan(""));
  dose.add(5000.0, 323.15);
  dose.add(5300.0, 323.15);
  CHECK(dose.equivalent() == Approx(900.0));
  CHECK_FALSE(dose.full_at().has_value());
}

TEST_CASE("a dose is near its full where a warmer place or another energy would reach it",
          "[watch]") {
  Item item;
  item.kind = Item::Kind::dose;
  item.activation_energy = 110.0e3;
  item.reference_temperature = 323.15;
  item.reference_duration = 100.0 * hour;
  const auto state = [&item](double celsius, double hours) {
    DoseTracker tracker(item);
    tracker.add(0.0, celsius + celsius_zero);
    tracker.add(hours * hour, celsius + celsius_zero);
    return tracker.state();
  };
  CHECK(state(50.0, 100.1) == State::crossed);
  CHECK(state(49.0, 100.0) == State::near);
  CHECK(state(47.0, 100.0) == State::clear);
  CHECK(state(90.0, 0.7) == State::clear);  // 91 times faster: 64 h of 100
  item.energy_low = 90.0e3;
  item.energy_high = 135.0e3;
  CHECK(state(90.0, 0.7) == State::near);  // 177 h with the high end
}
