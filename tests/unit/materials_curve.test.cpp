// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "materials/material.hpp"

using ampstair::materials::Curve;

TEST_CASE("a curve of one point is the same at every temperature") {
  const Curve curve{{293.15}, {0.15}};
  CHECK(curve.constant());
  CHECK(curve.at(1.0) == 0.15);
  CHECK(curve.at(2000.0) == 0.15);
}

TEST_CASE("a curve is straight between its points and constant beyond them") {
  const Curve curve{{300.0, 400.0, 600.0}, {1.0, 3.0, 4.0}};
  CHECK(curve.at(300.0) == Approx(1.0));
  CHECK(curve.at(350.0) == Approx(2.0));
  CHECK(curve.at(500.0) == Approx(3.5));
  CHECK(curve.at(100.0) == 1.0);
  CHECK(curve.at(900.0) == 4.0);
}

TEST_CASE("a repeated temperature is a jump, the later value holding from there on") {
  const Curve curve{{300.0, 372.0, 372.0, 400.0}, {1.0, 2.0, 10.0, 12.0}};
  CHECK(curve.at(371.999999) == Approx(2.0).epsilon(1e-6));
  CHECK(curve.at(372.0) == 10.0);
  CHECK(curve.at(386.0) == Approx(11.0));
}

TEST_CASE("a jump at either end of a curve") {
  const Curve curve{{300.0, 300.0, 400.0, 400.0}, {1.0, 2.0, 3.0, 9.0}};
  CHECK(curve.at(299.0) == 1.0);
  CHECK(curve.at(300.0) == 2.0);
  CHECK(curve.at(399.9999999) == Approx(3.0));
  CHECK(curve.at(400.0) == 9.0);
}
