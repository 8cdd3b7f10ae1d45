// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <string>

#include "scenario/spot.hpp"

namespace {

using namespace ampstair;

const std::vector<scenario::Extent> run = {{"A", 0.0, 0.0},
                                           {"leg - old", 0.0, 1.10},
                                           {"K1", 1.10, 0.04},
                                           {"tail", 1.14, 0.86},
                                           {"B", 2.0, 0.0}};

std::optional<double> place(const std::string& text, diagnostics::ProblemList& problems) {
  return scenario::locate({text, {"s.yaml", 1, 1}, sheet::Origin::given}, "spot", run, problems);
}

double place(const std::string& text) {
  diagnostics::ProblemList problems;
  const auto position = place(text, problems);
  REQUIRE(problems.empty());
  REQUIRE(position);
  return *position;
}

std::string code_of(const std::string& text) {
  diagnostics::ProblemList problems;
  CHECK_FALSE(place(text, problems));
  return problems.sorted().size() == 1 ? problems.sorted()[0].code : "not one fault";
}

}  // namespace

TEST_CASE("spots are counted from a piece's start, its end, or the run's start") {
  CHECK(place("K1 + 10 mm") == Approx(1.11));
  CHECK(place("K1 - 10 mm") == Approx(1.13));
  CHECK(place("tail") == Approx(1.57));
  CHECK(place("0.30 m") == Approx(0.30));
  CHECK(place("tail + 0.86 m") == Approx(2.0));
  CHECK(place("tail + 0 m") == Approx(1.14));
}

TEST_CASE("a name may hold a sign of its own") {
  CHECK(place("leg - old") == Approx(0.55));
  CHECK(place("leg - old + 0.20 m") == Approx(0.20));
  CHECK(place("leg - old - 0.20 m") == Approx(0.90));
}

TEST_CASE("offsets from the ends reach into their neighbours") {
  CHECK(place("A + 0.05 m") == Approx(0.05));
  CHECK(place("B - 0.05 m") == Approx(1.95));
}

TEST_CASE("spots that are nowhere are refused") {
  CHECK(code_of("K1 + 50 mm") == "E161");
  CHECK(code_of("tail - 1 m") == "E161");
  CHECK(code_of("B + 0.05 m") == "E161");
  CHECK(code_of("A - 0.05 m") == "E161");
  CHECK(code_of("3 m") == "E161");
  CHECK(code_of("K9") == "E162");
  CHECK(code_of("K9 + 10 mm") == "E162");
  CHECK(code_of("K1 + 10") == "E110");
  CHECK(code_of("K1 + 10 A") == "E111");
}
