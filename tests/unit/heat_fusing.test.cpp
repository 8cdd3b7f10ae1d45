// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "heat/fusing.hpp"

using namespace ampstair;

TEST_CASE("bare copper fuses at the currents of Preece's table") {
  // Brown & Sharpe diameters in inches and the currents tabulated for them, to the ampere (seen).
  const struct {
    double inches, amperes;
  } rows[] = {{0.0508, 117}, {0.0641, 166}, {0.0808, 235}, {0.1019, 333}};
  const auto copper = heat::fusing_constant("copper");
  for (const auto& [inches, amperes] : rows) {
    CHECK(heat::fusing_current(copper, inches * 0.0254) == Approx(amperes).epsilon(0.005));
  }
}

TEST_CASE("a metal without a constant has copper's, and says so") {
  CHECK_FALSE(heat::fusing_constant("copper-tinned").of_another);
  CHECK_FALSE(heat::fusing_constant("lead").of_another);
  CHECK(heat::fusing_constant("lead").value < heat::fusing_constant("copper").value);
  CHECK(heat::fusing_constant("").of_another);
  CHECK(heat::fusing_constant("").value == heat::fusing_constant("copper").value);
}
