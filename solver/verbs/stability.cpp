// SPDX-License-Identifier: MIT
#include "verbs/stability.hpp"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <cmath>
#include <numbers>
#include <optional>
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

std::optional<RunawayLimit> limit_of(const Scenario& scenario, const scenario::Piece& piece) {
  const auto* filled = std::get_if<scenario::Filled>(&piece.kind);
  const auto& rho = scenario.wire.metal->resistivity;
  const double coefficient = (rho.at(warm) / rho.at(room) - 1.0) / (warm - room);
  if (filled == nullptr || filled->neighbour > 0.0 ||  // a neighbour warms the fill, too
      coefficient <= 0.0) {
    return std::nullopt;
  }
  const double radius = 0.5 * scenario.wire.diameter;
  const double area = std::numbers::pi * radius * radius;
  const double path = scenario::covering_resistance(scenario.wire, room) +
                      std::log(filled->radius / scenario::outer_radius(scenario.wire)) /
                          (2.0 * std::numbers::pi * filled->fill->conductivity.at(room));
  const double loss = 1.0 / path;
  const double resistance = rho.at(room) / area;
  const double to_ends =
      heat::loss_to_held_ends(scenario.wire.metal->conductivity.at(room) * area, piece.length);
  return RunawayLimit{piece.name, loss, heat::runaway_current(loss, resistance, coefficient),
                      heat::runaway_current(loss + to_ends, resistance, coefficient)};
}

void print_runaway(std::ostream& out, const RunawayLimit& limit) {
  fmt::print(out,
             "  {}: a long run buried like this has no steady state above about {:.0f} A held "
             "({:.3f} W/m/K);\n    of this length, none above about {:.0f} A even between cold "
             "ends\n",
             limit.piece, limit.as_long, limit.loss, limit.held_ends);
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

std::vector<RunawayLimit> runaway_limits(const Scenario& scenario) {
  std::vector<RunawayLimit> limits;
  for (const auto& piece : scenario.run) {
    if (auto limit = limit_of(scenario, piece)) {
      limits.push_back(std::move(*limit));
    }
  }
  return limits;
}

std::optional<history::Table> stability_table(const Scenario& scenario) {
  std::vector<std::string> piece;
  std::vector<double> loss;
  std::vector<double> as_long;
  std::vector<double> held_ends;
  for (const RunawayLimit& limit : runaway_limits(scenario)) {
    piece.push_back(limit.piece);
    loss.push_back(limit.loss);
    as_long.push_back(limit.as_long);
    held_ends.push_back(limit.held_ends);
  }
  if (piece.empty()) {
    return std::nullopt;
  }
  return history::Table{
      "stability",
      "held currents above which buried wire has no steady state, in closed form",
      {{{"piece", "piece of the run", ""}, piece},
       {{"loss", "to the far side of its fill", "W m-1 K-1"}, loss},
       {{"as_long", "current above which it has none, were it long", "A"}, as_long},
       {{"held_ends", "the same of its length, were its ends kept cold", "A"}, held_ends}}};
}

void print_runaway_steps(std::ostream& out, const Scenario& scenario) {
  for (const RunawayLimit& limit : runaway_limits(scenario)) {
    for (std::size_t s = 0; s < scenario.staircase.size(); ++s) {
      const auto& step = scenario.staircase[s];
      if (step.kind == scenario::Step::Kind::hold_current && step.level > limit.as_long) {
        fmt::print(out,
                   "Step {} asks for {:.4g} A: a long run buried like '{}' has no steady state "
                   "above {:.0f} A{}.\n",
                   s + 1, step.level, limit.piece, limit.as_long,
                   step.level > limit.held_ends
                       ? ", nor has this length of it, whatever its ends do"
                       : fmt::format("; this length of it none above {:.0f} A at the most",
                                     limit.held_ends));
      }
    }
  }
}

void print_stability(std::ostream& out, const Scenario& scenario) {
  std::ostringstream told;
  for (const RunawayLimit& limit : runaway_limits(scenario)) {
    print_runaway(told, limit);
  }
  for (const auto& layer : scenario.wire.layers) {
    print_self_heating(told, scenario, layer);
  }
  if (!told.str().empty()) {
    out << '\n' << told.str();
  }
}

}  // namespace ampstair::verbs
