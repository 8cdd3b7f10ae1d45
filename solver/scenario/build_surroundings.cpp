// SPDX-License-Identifier: MIT
#include <cmath>

#include "scenario/building.hpp"

namespace ampstair::scenario {

namespace {

using quantities::Dimension;

/// Pressure of the standard atmosphere at a height above sea level [m], over that at sea level
/// (ISO 2533, from memory, very sure; its lowest layer, up to 11 km).
double standard_pressure_ratio(double altitude) {
  return std::pow(1.0 - 2.25577e-5 * altitude, 5.25588);
}

/// Which correlations of convection hold, at which pressure.
void put_convection_over(const AroundSheet& sheet, const std::string& path,
                         const Building& building, Surroundings& surroundings) {
  auto& convection = surroundings.convection;
  if (sheet.still_air.present()) {
    convection.still_air = sheet.still_air.value == "morgan-1975" ? StillAir::morgan_1975
                                                                  : StillAir::churchill_chu_1975;
  }
  if (sheet.convection.present()) {
    convection.factor =
        building.values.use(path + "/convection", sheet.convection, Dimension::ratio);
  }
  if (sheet.altitude.present()) {
    surroundings.altitude =
        building.values.use(path + "/altitude", sheet.altitude, Dimension::length);
    convection.pressure = building.values.use(
        path + "/air_pressure", standard_pressure_ratio(surroundings.altitude), Dimension::ratio,
        "over one atmosphere; standard atmosphere at that altitude (ISO 2533)",
        !sheet.altitude.given());
  }
}

/// Puts what a sheet gives over what holds already.
void put_over(const AroundSheet& sheet, const std::string& path, const Building& building,
              Surroundings& surroundings) {
  if (!sheet.air.empty()) {
    surroundings.air = build_air(sheet.air, path, building);
  }
  if (!sheet.walls.empty()) {
    surroundings.walls = build_walls(sheet.walls, path, building);
  }
  put_convection_over(sheet, path, building, surroundings);
  if (sheet.film) {
    FixedFilm film;
    film.coefficient = building.values.use(path + "/film/coefficient", sheet.film->coefficient,
                                           Dimension::film_coefficient);
    if (sheet.film->emissivity.present()) {
      film.emissivity =
          building.values.use(path + "/film/emissivity", sheet.film->emissivity, Dimension::ratio);
    }
    surroundings.film = film;
  }
}

}  // namespace

Surroundings build_surroundings(const AroundSheet& sheet, const std::string& path,
                                const Building& building) {
  Surroundings surroundings;
  put_over(sheet, path, building, surroundings);
  if (sheet.air.empty() && !building.problems.has_errors()) {
    building.problems.error("E122", sheet.place, "'air' of around is missing.",
                            "add  air: 20 degC");
  }
  return surroundings;
}

Surroundings build_surroundings(const PieceAroundSheet& sheet, const Surroundings& of_run,
                                const std::string& path, const Building& building) {
  Surroundings surroundings = of_run;
  put_over(sheet, path, building, surroundings);
  return surroundings;
}

}  // namespace ampstair::scenario
