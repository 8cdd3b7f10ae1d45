// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "scenario/building.hpp"
#include "scenario/parts.hpp"
#include "scenario/rough_loss.hpp"

namespace ampstair::scenario {

namespace {

using diagnostics::ProblemList;

constexpr double zero_celsius = 273.15;  // K
constexpr double pi = 3.14159265358979323846;

/// Mean temperature [K] at which the wire uses up what the supply can give at a current; below
/// absolute zero's neighbourhood where even the cold loop needs more.
double mean_at_limit(const Scenario& scenario, double current) {
  const double left = *scenario.supply.voltage_limit / current - other_resistance(scenario);
  double low = 1.0;
  double high = 3000.0;
  for (int halving = 0; halving < 60; ++halving) {
    const double middle = 0.5 * (low + high);
    (wire_resistance(scenario, middle) < left ? low : high) = middle;
  }
  return low;
}

double cold_voltage(const Scenario& scenario, double current) {
  const double air = scenario.surroundings.front().air.front().temperature;
  return current * (wire_resistance(scenario, air) + other_resistance(scenario));
}

/// What the supply cannot give: the first step that will sag, the first out of reach from cold.
std::string supply_doubts(const Scenario& scenario, const std::string& limit) {
  std::string sagging;
  std::string out_of_reach;
  for (std::size_t i = 0; i < scenario.staircase.size(); ++i) {
    const auto& step = scenario.staircase[i];
    if (step.kind != Step::Kind::hold_current) {
      continue;
    }
    if (cold_voltage(scenario, step.level) > *scenario.supply.voltage_limit) {
      if (out_of_reach.empty()) {
        out_of_reach = fmt::format("{:g} A is out of reach (the cold loop already needs {:.2f} V)",
                                   step.level, cold_voltage(scenario, step.level));
      }
      continue;
    }
    const double mean = mean_at_limit(scenario, step.level);
    const auto state = rough_state(scenario, step.level);
    if (sagging.empty() && (!state || state->temperature > mean)) {
      sagging = fmt::format(
          "{} can hold {:g} A only until the wire averages about {:.0f} degC, so "
          "step {} will sag",
          limit, step.level, mean - zero_celsius, i + 1);
    }
  }
  if (sagging.empty() && !out_of_reach.empty()) {
    return fmt::format("with {} {}", limit, out_of_reach);
  }
  return out_of_reach.empty() ? sagging : sagging + "; " + out_of_reach;
}

double highest_current(const Scenario& scenario) {
  double highest = 0.0;
  const double cold = cold_voltage(scenario, 1.0);
  for (const auto& step : scenario.staircase) {
    const bool volts = step.kind == Step::Kind::hold_voltage;
    highest = std::max(highest, volts ? step.level / cold : step.level);
  }
  return highest;
}

/// Length [m] over which heat spreads along the wire, sqrt(k A / G); infinite where unknown.
double axial_length(const Scenario& scenario, double current) {
  const auto state = rough_state(scenario, current);
  if (!state || current <= 0.0) {
    return std::numeric_limits<double>::infinity();
  }
  const double diameter = scenario.wire.diameter;
  const double metal =
      scenario.wire.metal->conductivity.at(state->temperature) * 0.25 * pi * diameter * diameter;
  return std::sqrt(metal / state->conductance);
}

/// The largest of 1, 2, 5, 10, ... mm that is not above a length.
double round_down(double length) {
  double power = std::pow(10.0, std::floor(std::log10(length)));
  for (const double step : {5.0, 2.0, 1.0}) {
    if (step * power <= length * (1.0 + 1e-9)) {
      return step * power;
    }
  }
  return power;
}

struct ShortPieces {
  std::vector<std::string> names;
  double shortest = std::numeric_limits<double>::infinity();
};

ShortPieces shorter_than(double grid, const Scenario& scenario) {
  ShortPieces found;
  for (const auto& piece : scenario.run) {
    if (piece.length > 0.0 && piece.length < grid) {
      found.names.push_back(piece.name);
      found.shortest = std::min(found.shortest, piece.length);
    }
  }
  return found;
}

}  // namespace

void check_supply(const RunSheet& sheet, const Scenario& scenario, ProblemList& problems) {
  const bool limited = scenario.supply.mode == Supply::Mode::current &&
                       scenario.supply.voltage_limit && sheet.supply;
  if (!limited) {
    return;
  }
  const auto& limit = sheet.supply->voltage_limit;
  const std::string doubts = supply_doubts(scenario, limit.text);
  if (!doubts.empty()) {
    problems.warning("W350", limit.place, doubts + ".",
                     "raise voltage_limit, shorten leads, or keep it and read the current got in "
                     "the report");
  }
}

void settle_grid(const RunSheet& sheet, Scenario& scenario, ProblemList& problems) {
  const auto& grid = sheet.output->grid;
  const double current = highest_current(scenario);
  const double spread = axial_length(scenario, current);
  if (!grid.given()) {
    // Every piece has cells of its own however short it is; only thin wire needs more than that.
    scenario.output.grid = std::min(grid.best, 0.2 * spread);
    return;
  }
  const auto pieces = shorter_than(grid.best, scenario);
  std::vector<std::string> reasons;
  if (!pieces.names.empty()) {
    reasons.push_back(fmt::format("longer than piece{} {} ({:g} mm)",
                                  pieces.names.size() > 1 ? "s" : "", fmt::join(pieces.names, ", "),
                                  1e3 * pieces.shortest));
  }
  if (grid.best > 0.25 * spread) {
    reasons.push_back(
        fmt::format("coarser than a quarter of the axial length scale ({:.0f} mm at "
                    "{:g} A)",
                    1e3 * spread, current));
  }
  if (reasons.empty()) {
    return;
  }
  const double enough = std::min(0.25 * pieces.shortest, 0.2 * spread);
  problems.error("E370", grid.place,
                 fmt::format("grid {} is {}.", grid.text, fmt::join(reasons, " and ")),
                 fmt::format("use {:g} mm or less; halve it once more and compare to see what is "
                             "left of the grid's error",
                             1e3 * round_down(enough)));
}

}  // namespace ampstair::scenario
