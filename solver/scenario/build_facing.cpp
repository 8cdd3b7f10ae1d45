// SPDX-License-Identifier: MIT
// Wood across air from a piece.
#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <variant>

#include "scenario/building.hpp"

namespace ampstair::scenario {

using quantities::Dimension;

namespace {

// Below it the air's own rise counts for more round a wire of 5 mm
// (tests/verification/surfaces.test.cpp).
constexpr double draught = 0.03;  // m/s

}  // namespace

MaterialPtr moist(const MaterialPtr& wood, const sheet::Number& moisture, const std::string& path,
                  const Building& building) {
  if (!wood || !moisture.present()) {
    return wood;
  }
  auto own = std::make_shared<materials::Material>(*wood);
  own->moisture = building.values.use(path + "/moisture", moisture, Dimension::ratio);
  return own;
}

void check_facing(const FacingSheet& sheet, const Piece& piece, const Surroundings& around,
                  diagnostics::ProblemList& problems) {
  if (std::holds_alternative<Filled>(piece.kind)) {
    problems.error(
        "E188", sheet.place,
        fmt::format("'{}' is buried: fill leaves no air between it and the wood.", piece.name),
        "leave out 'facing', or the fill");
  }
  const auto slower = [](const AirStep& a, const AirStep& b) { return a.speed < b.speed; };
  const auto fastest = std::max_element(around.air.begin(), around.air.end(), slower);
  if (!sheet.stagnant_film.given() && fastest != around.air.end() && fastest->speed > draught) {
    problems.warning("W266", sheet.place,
                     fmt::format("air moves at up to {:g} m/s round '{}', but the air between it "
                                 "and the wood is taken to be as still as in still air.",
                                 fastest->speed, piece.name),
                     "write  stagnant_film: 1 mm, or 0 mm where the draught takes it away");
  }
}

Facing build_facing(const FacingSheet& sheet, const std::string& path, const Building& building) {
  const auto use = [&](const char* key, const sheet::Number& number) {
    return building.values.use(path + "/" + key, number, Dimension::length);
  };
  Facing facing;
  facing.distance = use("distance", sheet.distance);
  facing.depth = use("depth", sheet.depth);
  facing.width = use("width", sheet.width);
  facing.stagnant_film = use("stagnant_film", sheet.stagnant_film);
  facing.wood =
      moist(building.material(sheet.wood, path + "/wood", "wood"), sheet.moisture, path, building);
  return facing;
}

}  // namespace ampstair::scenario
