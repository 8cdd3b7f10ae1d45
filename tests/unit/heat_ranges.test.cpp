// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "heat/ranges.hpp"

using namespace ampstair;

namespace {

double value_of(const std::string& quantity, const std::vector<heat::ValueInRange>& values) {
  const auto found = std::find_if(values.begin(), values.end(),
                                  [&](const auto& one) { return one.of->quantity == quantity; });
  REQUIRE(found != values.end());
  return found->value;
}

}  // namespace

TEST_CASE("Rayleigh and Peclet number of a 10 mm cylinder in air, by hand") {
  // At 300 K: 15.89e-6 m2/s, Pr 0.707 (table A.4 of Incropera & DeWitt, from memory);
  // Ra = 9.80665 / 300 * 20 * 1e-6 / (15.89e-6)^2 * 0.707 = 1831, Re Pr = 0.01 / 15.89e-6 * 0.707 =
  // 444.9 (computed here).
  const auto values =
      heat::values_in_ranges(heat::Shape::horizontal_cylinder, 0.01, 310.0, {290.0, 1.0, {}});
  CHECK(values.size() == 3);
  CHECK(value_of("film temperature in K", values) == Approx(300.0));
  CHECK(value_of("Rayleigh number", values) == Approx(1831).epsilon(1e-3));
  CHECK(value_of("Reynolds times Prandtl number", values) == Approx(444.9).epsilon(1e-3));
  for (const auto& one : values) {
    CHECK(one.of->holds(one.value));
  }
}

TEST_CASE("a range holds at its ends and not beyond") {
  const auto values =
      heat::values_in_ranges(heat::Shape::horizontal_cylinder, 0.01, 250.0, {250.0, 1e-5, {}});
  for (const auto& [of, value] : values) {
    CHECK(of->holds(of->range.low));
    CHECK(of->holds(of->range.high));
    CHECK_FALSE(of->holds(of->range.low - 1e-9));
    CHECK_FALSE(of->holds(of->range.high * 1.001));
  }
}
