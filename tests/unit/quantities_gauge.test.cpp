// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <string>
#include <utility>
#include <vector>

#include "quantities/parse.hpp"

using namespace ampstair::quantities;

namespace {

double gauge(std::string_view text) {
  CAPTURE(text);
  const Parsed parsed = parse_gauge(text, "'gauge'");
  REQUIRE_FALSE(parsed.fault.has_value());
  return parsed.si;
}

std::string code(std::string_view text) {
  const Parsed parsed = parse_gauge(text, "'gauge'");
  return parsed.fault ? parsed.fault->code : "none";
}

}  // namespace

// ASTM B258, diameters of solid round wires; figures seen in a published table.
TEST_CASE("American wire gauges have the diameters of ASTM B258") {
  const std::vector<std::pair<std::string, double>> table{
      {"No. 10", 2.5882e-3}, {"No. 12", 2.0525e-3}, {"No. 14", 1.6277e-3},
      {"No. 16", 1.2908e-3}, {"No. 18", 1.0237e-3}, {"No. 20", 0.8118e-3}};
  for (const auto& [text, metres] : table) {
    CAPTURE(text);
    CHECK(gauge(text) == Approx(metres).epsilon(5e-4));
  }
}

// The two gauges that define the series: No. 36 is 0.005 in, No. 4/0 is 0.46 in (ASTM B258, from
// memory).
TEST_CASE("the defining gauges are exact") {
  CHECK(gauge("No. 36") == Approx(0.005 * 0.0254).epsilon(1e-12));
  CHECK(gauge("No. 4/0") == Approx(0.46 * 0.0254).epsilon(1e-12));
}

TEST_CASE("gauges may be written in several ways") {
  for (const auto* text : {"no. 12", "No 12", "No.12", "#12", "AWG 12", "12 AWG", "No. 12 B&S"}) {
    CAPTURE(text);
    CHECK(gauge(text) == gauge("No. 12"));
  }
  CHECK(gauge("No. 0") == gauge("1/0 AWG"));
  CHECK(gauge("No. 0000") == gauge("4/0 AWG"));
}

// British standard wire gauge: No. 18 is 0.048 in, No. 7/0 is 0.500 in (from memory).
TEST_CASE("British gauges are read when named") {
  CHECK(gauge("No. 18 SWG") == Approx(0.048 * 0.0254));
  CHECK(gauge("7/0 SWG") == Approx(0.500 * 0.0254));
  CHECK(gauge("No. 0 SWG") == Approx(0.324 * 0.0254));
  CHECK(gauge("No. 1 SWG") == Approx(0.300 * 0.0254));
  CHECK(gauge("No. 40 SWG") == Approx(0.0048 * 0.0254));
}

TEST_CASE("what is no gauge is refused") {
  CHECK(code("12") == "E110");
  CHECK(code("twelve") == "E115");
  CHECK(code("") == "E115");
  CHECK(code("No. 12 mm") == "E115");
  CHECK(code("No. -1") == "E115");
  CHECK(code("No. 57") == "E130");
  CHECK(code("5/0 AWG") == "E130");
  CHECK(code("No. 41 SWG") == "E130");
  CHECK(code("No. 99999999999999") == "E115");
}

TEST_CASE("the gauge nearest to a diameter is found") {
  CHECK(nearest_gauge(1.63e-3) == "No. 14");
  CHECK(nearest_gauge(2.05e-3) == "No. 12");
  CHECK(nearest_gauge(11.7e-3) == "No. 4/0");
}
