// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include "scenario/building.hpp"

namespace ampstair::scenario {

namespace {

using diagnostics::ProblemList;

/// "13 A" -> "31 A" where the turned number would rise above the step before.
std::optional<std::string> turned_digits(const sheet::Number& level, double before) {
  const auto unit = level.text.find_first_not_of("0123456789");
  if (unit == std::string::npos || unit < 2) {
    return std::nullopt;
  }
  std::string digits = level.text.substr(0, unit);
  std::reverse(digits.begin(), digits.end());
  const double per_unit = level.best / std::stod(level.text.substr(0, unit));
  if (std::stod(digits) * per_unit <= before) {
    return std::nullopt;
  }
  return digits + level.text.substr(unit);
}

const sheet::Number* level_of(const StepSheet& step) {
  if (step.hold.present()) {
    return &step.hold;
  }
  for (const auto* level : {&step.volts, &step.ramp_to, &step.ramp_volts_to}) {
    if (level->present()) {
      return level;
    }
  }
  return nullptr;
}

}  // namespace

void check_rising(const RunSheet& sheet, ProblemList& problems) {
  if (sheet.shape.value == "any") {
    return;
  }
  std::size_t before = 0;
  const sheet::Number* last = nullptr;
  for (std::size_t i = 0; i < sheet.staircase.size(); ++i) {
    const auto* level = level_of(sheet.staircase[i]);
    if (level == nullptr) {
      continue;
    }
    if (last != nullptr && level->best < last->best) {
      const auto turned = turned_digits(*level, last->best);
      problems.warning(
          "W241", level->place,
          fmt::format("step {} ({}) is lower than step {} ({}) in a staircase meant to "
                      "rise.",
                      i + 1, level->text, before + 1, last->text),
          "if intended, add  shape: any  beside staircase" +
              (turned ? "; digits swapped? " + *turned : std::string()));
    }
    last = level;
    before = i;
  }
}

void check_times(const RunSheet& sheet, const Scenario& scenario, ProblemList& problems) {
  if (scenario.staircase.empty() || !sheet.output) {
    return;
  }
  const auto shortest =
      std::min_element(scenario.staircase.begin(), scenario.staircase.end(),
                       [](const Step& a, const Step& b) { return a.duration < b.duration; });
  const auto number = shortest - scenario.staircase.begin() + 1;
  if (sheet.output->every.best > shortest->duration) {
    problems.warning("W371", sheet.output->every.place,
                     fmt::format("rows every {} are further apart than step {} is long ({:g} s).",
                                 sheet.output->every.text, number, shortest->duration),
                     "record more often, e.g.  every: 10 s");
  }
  for (const auto& item : sheet.watch) {
    if (item.persistence.given() && item.persistence.best > shortest->duration) {
      problems.warning(
          "W253", item.persistence.place,
          fmt::format("'{}' has to last {}, longer than step {} ({:g} s); no step that "
                      "short can cross it by itself.",
                      item.name.value, item.persistence.text, number, shortest->duration),
          "shorten 'for', or lengthen the step");
    }
  }
}

}  // namespace ampstair::scenario
