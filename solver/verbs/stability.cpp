// SPDX-License-Identifier: MIT
#include "verbs/stability.hpp"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <cmath>
#include <numbers>
#include <sstream>

#include "heat/constants.hpp"
#include "heat/criticality.hpp"
#include "scenario/parts.hpp"
#include "scenario/rough_loss.hpp"

namespace ampstair::verbs {

namespace {

using scenario::Scenario;

constexpr double room = heat::zero_celsius + 20.0;
constexpr double warm =
    heat::zero_celsius + 100.0;  // K, to where the resistance is a straight line

void print_runaway(std::ostream& out, const Scenario& scenario, const scenario::Piece& piece) {
  const auto* filled = std::get_if<scenario::Filled>(&piece.kind);
  if (filled == nullptr || filled->neighbour > 0.0) {  // a neighbour warms the fill, too
    return;
  }
  const auto& rho = scenario.wire.metal->resistivity;
  const double coefficient = (rho.at(warm) / rho.at(room) - 1.0) / (warm - room);
  if (coefficient <= 0.0) {
    return;
  }
  const double radius = 0.5 * scenario.wire.diameter;
  const double resistance = rho.at(room) / (std::numbers::pi * radius * radius);
  const double path = scenario::covering_resistance(scenario.wire, room) +
                      std::log(filled->radius / scenario::outer_radius(scenario.wire)) /
                          (2.0 * std::numbers::pi * filled->fill->conductivity.at(room));
  fmt::print(out,
             "  {}: a long run buried like this has no steady state above about {:.0f} A held "
             "({:.3f} W/m/K)\n",
             piece.name, heat::runaway_current(1.0 / path, resistance, coefficient), 1.0 / path);
}

void print_self_heating(std::ostream& out, const Scenario& scenario, const scenario::Layer& layer) {
  if (!layer.material->breakdown) {
    return;
  }
  const double radius = scenario::outer_radius(scenario.wire);
  const heat::SelfHeating solid{*layer.material->breakdown, layer.material->density,
                                layer.material->conductivity.at(warm)};
  const auto surface = heat::critical_surface(solid, heat::SolidShape::cylinder, radius);
  if (!surface) {
    fmt::print(out,
               "  {}: as a cylinder of the wire's radius it does not run away by its own heat\n",
               layer.part);
    return;
  }
  fmt::print(
      out,
      "  {}: as a cylinder of the wire's radius ({:.2f} mm) it runs away by its own heat from "
      "a surface\n    at about {:.0f} degC on (Frank-Kamenetskii parameter 2; R T^2 / E is "
      "{:.1f} K there)\n",
      layer.part, 1e3 * radius, *surface - heat::zero_celsius,
      heat::temperature_scale(solid.breakdown, *surface));
}

}  // namespace

void print_stability(std::ostream& out, const Scenario& scenario) {
  std::ostringstream told;
  for (const auto& piece : scenario.run) {
    print_runaway(told, scenario, piece);
  }
  for (const auto& layer : scenario.wire.layers) {
    print_self_heating(told, scenario, layer);
  }
  if (!told.str().empty()) {
    out << '\n' << told.str();
  }
}

}  // namespace ampstair::verbs
