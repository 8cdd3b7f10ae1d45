// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <filesystem>
#include <string>

#include "materials/library.hpp"
#include "materials/material_sheet.hpp"
#include "sheet/document.hpp"

namespace {

using namespace ampstair;

materials::Material built(const std::string& more) {
  diagnostics::ProblemList problems;
  const auto document = sheet::read_text(
      "conductivity: 0.15 W/m/K\ndensity: 1150 kg/m3\nheat_capacity: 1700 J/kg/K\n" + more,
      "material.yaml", problems);
  const auto read = sheet::read(document, materials::material_keys(), problems);
  auto material = materials::build_material(read, "of the test", "rubber", problems);
  CHECK(problems.empty());
  return material;
}

}  // namespace

TEST_CASE("a material is wood with a past only where its moisture is said") {
  CHECK_FALSE(built("").moisture.has_value());
  CHECK(built("moisture: 12 %\n").moisture.value() == Approx(0.12));
  CHECK(built("moisture: 0 %\n").moisture.value() == 0.0);
  const materials::Library library(
      {std::filesystem::path(AMPSTAIR_SOURCE_FOLDER) / "scenarios" / "materials"});
  diagnostics::ProblemList problems;
  const auto named = [&](const std::string& name) {
    return library.find({name, {"sheet.yaml", 1, 1}, sheet::Origin::given}, problems);
  };
  for (const char* const moist : {"softwood", "oak"}) {
    const auto wood = named(moist);
    const auto dry = named(std::string(moist) + "-dry");
    REQUIRE((wood && dry));
    CHECK(wood->moisture.value() == Approx(0.12));
    CHECK_FALSE(dry->moisture.has_value());
    CHECK(wood->density == dry->density);
    CHECK(wood->conductivity.value == dry->conductivity.value);
  }
}

TEST_CASE("a breakdown is read with its units") {
  CHECK_FALSE(built("").breakdown.has_value());
  const auto breakdown =
      built("breakdown: {frequency: 1e9 1/s, energy: 110 kJ/mol, heat: 300 kJ/kg}\n").breakdown;
  REQUIRE(breakdown.has_value());
  CHECK(breakdown->frequency == Approx(1e9));
  CHECK(breakdown->energy == Approx(110e3));
  CHECK(breakdown->heat == Approx(300e3));
  CHECK_FALSE(breakdown->conductivity_after.has_value());
  const auto charring = built(
      "breakdown: {frequency: 6e10 1/min, energy: 110 kJ/mol, heat: -200 kJ/kg, "
      "conductivity_after: 0.05 W/m/K}\n");
  CHECK(charring.breakdown->frequency == Approx(1e9));
  CHECK(charring.breakdown->heat == Approx(-200e3));
  CHECK(charring.breakdown->conductivity_after.value() == Approx(0.05));
}
