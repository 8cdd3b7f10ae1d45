// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cstddef>

#include "grid/spacing.hpp"

namespace {

using ampstair::grid::graded;

/// Largest ratio of neighbouring cells, either way.
double steepest(const std::vector<double>& faces) {
  double worst = 1.0;
  for (std::size_t i = 2; i < faces.size(); ++i) {
    const double a = faces[i - 1] - faces[i - 2];
    const double b = faces[i] - faces[i - 1];
    worst = std::max({worst, a / b, b / a});
  }
  return worst;
}

}  // namespace

TEST_CASE("faces run from end to end and ascend") {
  const auto faces = graded(
      0.3, 1.7, [](double) { return 0.1; }, 1);
  CHECK(faces.front() == 0.3);
  CHECK(faces.back() == 1.7);
  CHECK(faces.size() == 15);
  CHECK(std::is_sorted(faces.begin(), faces.end()));
}

TEST_CASE("even spacing is even and rounded up to whole cells") {
  const auto faces = graded(
      0.0, 1.0, [](double) { return 0.3; }, 1);
  REQUIRE(faces.size() == 5);
  CHECK(faces[1] == Approx(0.25));
  CHECK(steepest(faces) == Approx(1.0).epsilon(1e-9));
}

TEST_CASE("the fewest cells asked for are there") {
  CHECK(graded(
            0.0, 1e-3, [](double) { return 1.0; }, 4)
            .size() == 5);
}

TEST_CASE("spacing follows what is wanted, in stretches long and short") {
  for (const double length : {0.05, 1.0, 30.0, 100.0}) {
    const auto wanted = [&](double x) {
      return std::min(5e-3, 0.4e-3 + 0.12 * std::min(x, length - x));
    };
    const auto faces = graded(0.0, length, wanted, 2);
    INFO("length " << length);
    CHECK(steepest(faces) < 1.2);
    for (std::size_t i = 1; i < faces.size(); ++i) {
      const double middle = 0.5 * (faces[i] + faces[i - 1]);
      CHECK(faces[i] - faces[i - 1] < 1.05 * wanted(middle));
    }
  }
}

TEST_CASE("the other way round the faces are the same") {
  const auto wanted = [](double x) { return 0.4e-3 + 0.12 * std::min(x, 0.31); };
  const auto there = graded(0.0, 0.7, wanted, 2);
  const auto back = graded(
      0.0, 0.7, [&](double x) { return wanted(0.7 - x); }, 2);
  REQUIRE(there.size() == back.size());
  for (std::size_t i = 0; i < there.size(); ++i) {
    CHECK(there[i] == Approx(0.7 - back[back.size() - 1 - i]).margin(1e-13));
  }
}
