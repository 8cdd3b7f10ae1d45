// SPDX-License-Identifier: MIT
#include "scenario/rough_loss.hpp"

#include <algorithm>
#include <cmath>

#include "scenario/parts.hpp"

namespace ampstair::scenario {

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double stefan_boltzmann = 5.670374419e-8;  // W/m2/K4
constexpr double hottest = 1273.15;                  // K
constexpr int most_rounds = 500;

double section(const Wire& wire) {
  return 0.25 * pi * wire.diameter * wire.diameter;
}

double surface_emissivity(const Wire& wire) {
  return wire.layers.empty() ? wire.metal->emissivity : wire.layers.back().material->emissivity;
}

/// K by which the surface is above the air when it gives off `watts` per metre.
double surface_rise(const Scenario& scenario, double watts) {
  const auto& around = scenario.surroundings.front();
  const double diameter = 2.0 * outer_radius(scenario.wire);
  if (around.film) {
    const double air = around.air.front().temperature;
    const double emissivity = around.film->emissivity.value_or(surface_emissivity(scenario.wire));
    const double film =
        around.film->coefficient + 4.0 * emissivity * stefan_boltzmann * air * air * air;
    return film > 0.0 ? watts / (pi * diameter * film) : hottest;
  }
  const double coefficient = 0.21 / std::pow(diameter, 0.6) + 3.94;
  return std::pow(watts / (pi * diameter * coefficient), 0.8);
}

}  // namespace

double covering_resistance(const Wire& wire, double kelvin) {
  double inner = 0.5 * wire.diameter;
  double sum = 0.0;
  for (const auto& layer : wire.layers) {
    const double outer = inner + layer.thickness;
    sum += std::log(outer / inner) / (2.0 * pi * layer.material->conductivity.at(kelvin));
    inner = outer;
  }
  return sum;
}

std::optional<RoughState> rough_state(const Scenario& scenario, double current) {
  const auto& wire = scenario.wire;
  const double air = scenario.surroundings.front().air.front().temperature;
  double kelvin = air;
  // Heat made grows with temperature and so does the temperature with the heat: the rounds rise
  // towards the lowest balance, if there is one.
  for (int round = 0; round < most_rounds && kelvin < hottest; ++round) {
    const double watts = current * current * wire.metal->resistivity.at(kelvin) / section(wire);
    const double next =
        air + watts * covering_resistance(wire, kelvin) + surface_rise(scenario, watts);
    if (std::abs(next - kelvin) < 1e-3) {
      return RoughState{next, watts / std::max(next - air, 1e-6)};
    }
    kelvin = next;
  }
  return std::nullopt;
}

double wire_resistance(const Scenario& scenario, double kelvin) {
  return scenario.wire.metal->resistivity.at(kelvin) * scenario.length() / section(scenario.wire);
}

double other_resistance(const Scenario& scenario) {
  const auto& lead = scenario.supply.lead;
  double sum = scenario.supply.inner_resistance;
  if (lead.metal) {
    const double air = scenario.surroundings.front().air.front().temperature;
    sum += lead.metal->resistivity.at(air) * lead.length / lead.area;
  }
  for (const auto& piece : scenario.run) {
    if (const auto* lug = std::get_if<Lug>(&piece.kind)) {
      sum += lug->contact_resistance;
    } else if (const auto* splice = std::get_if<Splice>(&piece.kind)) {
      sum += splice->resistance;
    }
  }
  return sum;
}

}  // namespace ampstair::scenario
