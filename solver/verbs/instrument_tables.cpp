// SPDX-License-Identifier: MIT
#include "verbs/instrument_tables.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <string>
#include <variant>

#include "heat/constants.hpp"

namespace ampstair::verbs {

namespace {

using Numbers = std::vector<double>;
using Texts = std::vector<std::string>;

constexpr double missing = std::numeric_limits<double>::quiet_NaN();
constexpr double room = heat::zero_celsius + 20.0;        // K
constexpr double touched_at = heat::zero_celsius + 50.0;  // K, for the effusivity

/// What the run's surface is like somewhere.
struct Surface {
  double emissivity = missing;
  double width = missing;       // m across
  double effusivity = missing;  // J/m2/K/s^1/2
  std::string part;             // empty: nothing is exposed there
  std::string history = "surface_temperature";
};

double effusivity_of(const materials::Material& material) {
  return std::sqrt(material.conductivity.at(touched_at) * material.density *
                   material.heat_capacity.at(touched_at));
}

/// A knob hides the wire it grips: what is met there is its ceramic.
const scenario::Knob* knob_at(const scenario::Scenario& scenario, double position) {
  for (const auto& piece : scenario.run) {
    const auto* knob = std::get_if<scenario::Knob>(&piece.kind);
    if (knob != nullptr && position >= piece.begin && position <= piece.end()) {
      return knob;
    }
  }
  return nullptr;
}

Surface surface_at(const scenario::Scenario& scenario, const grid::Grid& grid, double position) {
  if (const auto* knob = knob_at(scenario, position)) {
    return {knob->body->emissivity, knob->height, effusivity_of(*knob->body), knob->body->part,
            knob->body->part + "_temperature"};
  }
  const auto after =
      std::upper_bound(grid.station_face.begin() + 1, grid.station_face.end() - 1, position);
  const auto station = static_cast<std::size_t>(after - grid.station_face.begin()) - 1;
  Surface found;
  if (grid.outer_face[station] == grid::Grid::npos) {
    return found;
  }
  const grid::Face& face = grid.faces[grid.outer_face[station]];
  const grid::Exposure& exposure = grid.exposures[face.exposure];
  const grid::Medium& medium = grid.media[grid.medium[face.cell]];
  const auto& film = scenario.surroundings[exposure.surroundings].film;
  found.emissivity = film && film->emissivity ? *film->emissivity : exposure.emissivity;
  found.width = exposure.length;
  found.part = medium.part;
  if (medium.material) {
    found.effusivity = effusivity_of(*medium.material);
  }
  return found;
}

double celsius(const std::optional<double>& kelvin) {
  return kelvin ? *kelvin - heat::zero_celsius : missing;
}

history::Table camera_table(const scenario::Scenario& scenario, const grid::Grid& grid) {
  const scenario::Camera& camera = *scenario.instruments.camera;
  Texts name, part, history;
  Numbers position, emissivity, width;
  for (const auto& aim : camera.aim) {
    const Surface surface = surface_at(scenario, grid, aim.position);
    name.push_back(aim.name);
    position.push_back(aim.position);
    part.push_back(surface.part);
    history.push_back(surface.history);
    emissivity.push_back(surface.emissivity);
    width.push_back(surface.width);
  }
  const auto all = [&](double value) { return Numbers(name.size(), value); };
  return {"camera",
          "places an infrared camera is aimed at, and how it is set",
          {{{"name", "place as the sheet writes it", ""}, name},
           {{"position", "distance from the start of the run", "m"}, position},
           {{"part", "outermost part there; empty: nothing is exposed", ""}, part},
           {{"history", "history that holds its temperature", ""}, history},
           {{"emissivity", "emissivity of the surface there", "1"}, emissivity},
           {{"width", "diameter of the surface there", "m"}, width},
           {{"emissivity_set", "emissivity the camera is told", "1"}, all(camera.emissivity_set)},
           {{"reflected", "temperature it is told to be mirrored", "degC"},
            all(camera.reflected - heat::zero_celsius)},
           {{"ceiling", "end of its scale", "degC"}, all(celsius(camera.ceiling))},
           {{"distance", "to the wire", "m"}, all(camera.distance.value_or(missing))},
           {{"pixel_angle", "seen by one pixel", "rad"}, all(camera.pixel.value_or(missing))}}};
}

history::Table couples_table(const scenario::Scenario& scenario) {
  Texts name, place, under;
  Numbers position, lag;
  for (const auto& couple : scenario.instruments.thermocouples) {
    name.push_back(couple.name);
    place.push_back(couple.spot.name);
    position.push_back(couple.spot.position);
    under.push_back(couple.under);
    lag.push_back(couple.lag);
  }
  return {"thermocouples",
          "thermocouples on the run",
          {{{"name", "its name", ""}, name},
           {{"place", "place as the sheet writes it", ""}, place},
           {{"position", "distance from the start of the run", "m"}, position},
           {{"under", "layer over its bead; empty: on the surface", ""}, under},
           {{"lag", "time constant", "s"}, lag}}};
}

history::Table touch_table(const scenario::Scenario& scenario, const grid::Grid& grid) {
  const scenario::Touch& touch = *scenario.instruments.touch;
  Texts name, part, history;
  Numbers position, effusivity;
  for (const auto& spot : touch.spots) {
    const Surface surface = surface_at(scenario, grid, spot.position);
    name.push_back(spot.name);
    part.push_back(surface.part);
    history.push_back(surface.history);
    position.push_back(spot.position);
    effusivity.push_back(surface.effusivity);
  }
  return {"touch",
          "places a hand is put to",
          {{{"name", "place as the sheet writes it", ""}, name},
           {{"position", "distance from the start of the run", "m"}, position},
           {{"part", "outermost part there; empty: nothing is exposed", ""}, part},
           {{"history", "history that holds its temperature", ""}, history},
           {{"effusivity", "of that part at 50 degC", "J m-2 K-1 s-1/2"}, effusivity},
           {{"contact", "how long", "s"}, Numbers(name.size(), touch.contact)}}};
}

history::Table taps_table(const scenario::Voltmeter& voltmeter) {
  return {"taps",
          "the two places a voltmeter is joined to",
          {{{"name", "places as the sheet writes them", ""},
            Texts{voltmeter.from.name + " to " + voltmeter.to.name}},
           {{"begin", "distance from the start of the run", "m"}, Numbers{voltmeter.from.position}},
           {{"end", "distance from the start of the run", "m"}, Numbers{voltmeter.to.position}},
           {{"error", "of its reading, as a part of it", "1"}, Numbers{voltmeter.error}}}};
}

history::Table stations_table(const marching::HeatNetwork& network, double cold) {
  const auto& grid = network.grid();
  Numbers begin, end, per_resistivity;
  for (std::size_t j = 0; j < grid.stations(); ++j) {
    begin.push_back(grid.station_face[j]);
    end.push_back(grid.station_face[j + 1]);
    per_resistivity.push_back(network.wire_resistance(j, room) / cold);
  }
  return {"stations",
          "stations along the run, as resistors",
          {{{"begin", "distance from the start of the run", "m"}, begin},
           {{"end", "distance from the start of the run", "m"}, end},
           {{"metres_per_area", "times the resistivity: resistance, joints in it", "m-1"},
            per_resistivity}}};
}

history::Table resistivity_table(const materials::Curve& curve) {
  Numbers temperature, value;
  for (std::size_t i = 0; i < curve.value.size(); ++i) {
    temperature.push_back((i < curve.temperature.size() ? curve.temperature[i] : room) -
                          heat::zero_celsius);
    value.push_back(curve.value[i]);
  }
  return {"resistivity",
          "resistivity of the conductor, linear between points",
          {{{"temperature", "temperature", "degC"}, temperature},
           {{"value", "resistivity", "ohm m"}, value}}};
}

}  // namespace

std::vector<history::Table> instrument_tables(const scenario::Scenario& scenario,
                                              const marching::HeatNetwork& network) {
  const auto& instruments = scenario.instruments;
  std::vector<history::Table> tables;
  if (instruments.camera) {
    tables.push_back(camera_table(scenario, network.grid()));
  }
  if (!instruments.thermocouples.empty()) {
    tables.push_back(couples_table(scenario));
  }
  if (instruments.touch) {
    tables.push_back(touch_table(scenario, network.grid()));
  }
  if (instruments.voltmeter) {
    const auto& resistivity = scenario.wire.metal->resistivity;
    tables.push_back(taps_table(*instruments.voltmeter));
    tables.push_back(stations_table(network, resistivity.at(room)));
    tables.push_back(resistivity_table(resistivity));
  }
  return tables;
}

}  // namespace ampstair::verbs
