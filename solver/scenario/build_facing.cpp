// SPDX-License-Identifier: MIT
// Wood across air from a piece.
#include <fmt/format.h>

#include <memory>
#include <variant>

#include "scenario/building.hpp"

namespace ampstair::scenario {

using quantities::Dimension;

MaterialPtr moist(const MaterialPtr& wood, const sheet::Number& moisture, const std::string& path,
                  const Building& building) {
  if (!wood || !moisture.present()) {
    return wood;
  }
  auto own = std::make_shared<materials::Material>(*wood);
  own->moisture = building.values.use(path + "/moisture", moisture, Dimension::ratio);
  return own;
}

void check_facing(const FacingSheet& sheet, const Piece& piece,
                  diagnostics::ProblemList& problems) {
  if (std::holds_alternative<Filled>(piece.kind)) {
    problems.error(
        "E188", sheet.place,
        fmt::format("'{}' is buried: fill leaves no air between it and the wood.", piece.name),
        "leave out 'facing', or the fill");
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
