// SPDX-License-Identifier: MIT
// Closed bays round pieces of the run.
#include <fmt/format.h>

#include <algorithm>

#include "scenario/building.hpp"

namespace ampstair::scenario {

namespace {

using quantities::Dimension;

/// Standard resistance of an inner surface, radiation and convection together, that stands in a
/// U-value (ISO 6946, heat flowing sideways; from memory, very sure).
constexpr double inner_surface_resistance = 0.13;  // m2 K/W

/// What walls without a lining hold: a tenth of a millimetre of wood.
constexpr double bare_walls = 100.0;  // J/m2/K

/// Heat capacity of air at constant pressure per volume, p c_p / (R T) with 101325 Pa, 1006 J/kg/K
/// and 287.05 J/kg/K.
double air_heat(const Surroundings& surroundings) {
  return 101325.0 * surroundings.convection.pressure * 1006.0 /
         (287.05 * surroundings.air.front().temperature);
}

/// Heat capacity of the lining, J/m2/K.
double lining_heat(const BaySheet& sheet, const std::string& path, double kelvin,
                   const Building& building) {
  if (!sheet.lining) {
    return building.values.use(path + "/walls_heat_per_area", bare_walls, Dimension::ratio,
                               "J/m2/K; no lining is given, so that the walls hold next to nothing",
                               true);
  }
  const auto material =
      building.material(sheet.lining->material, path + "/lining/material", "lining");
  const double thickness =
      building.values.use(path + "/lining/thickness", sheet.lining->thickness, Dimension::length);
  return material ? thickness * material->density * material->heat_capacity.at(kelvin) : bare_walls;
}

}  // namespace

Bay build_bay(const BaySheet& sheet, const std::optional<NeighbourSheet>& neighbour,
              const Surroundings& surroundings, const std::string& path, const Building& building) {
  const auto use = [&](const char* key, const sheet::Number& number, Dimension dimension) {
    return building.values.use(path + "/" + key, number, dimension);
  };
  const double width = use("width", sheet.width, Dimension::length);
  const double depth = use("depth", sheet.depth, Dimension::length);
  const double conductance = use("conductance", sheet.conductance, Dimension::film_coefficient);
  const double inner = use("inner_film", sheet.inner_film, Dimension::film_coefficient);
  double share = 1.0;
  if (neighbour) {
    building.values.use(path + "/neighbour/distance", neighbour->distance, Dimension::length);
    share = 0.5;
  }
  Bay bay;
  if (building.problems.has_errors()) {
    return bay;
  }
  const double round = 2.0 * (width + depth);
  const double walls =
      round * lining_heat(sheet, path, surroundings.air.front().temperature, building);
  bay.air_capacity = share * width * depth * air_heat(surroundings);
  bay.walls_capacity = share * walls;
  bay.inner_conductance = share * round * inner;
  bay.outer_conductance = share * 2.0 * width / (1.0 / conductance - inner_surface_resistance);
  bay.shared = neighbour.has_value();
  return bay;
}

std::optional<std::size_t> bay_named(const sheet::Text& name, const Scenario& scenario,
                                     diagnostics::ProblemList& problems) {
  std::vector<std::string> names;
  for (const Piece& piece : scenario.run) {
    if (scenario.surroundings[piece.around].bay) {
      if (piece.name == name.value) {
        return piece.around;
      }
      names.push_back(piece.name);
    }
  }
  problems.error(
      "E175", name.place,
      fmt::format("no piece before this one is called '{}' and lies in a bay.", name.value),
      names.empty() ? "write  bay: {width: 360 mm, depth: 90 mm, conductance: 1.9 W/m2/K}"
                    : fmt::format("in a bay are: {}", fmt::join(names, ", ")));
  return std::nullopt;
}

}  // namespace ampstair::scenario
