// SPDX-License-Identifier: MIT
#include "verbs/words.hpp"

#include <fmt/format.h>

#include "checks/amounts.hpp"

namespace ampstair::post::verbs {

using checks::figures;

std::string amount(const std::optional<double>& value, const char* unit, int decimals) {
  return value ? figures(*value, decimals) + " " + unit : nothing;
}

std::string minutes(double seconds) {
  constexpr double minute = 60.0;  // s
  return figures(seconds / minute, 1);
}

std::string short_spot(const checks::Spot& spot) {
  return figures(spot.position, 3) + " m " + spot.name;
}

std::string asked_text(const checks::StepFinding& step) {
  if (step.kind == "hold_voltage") {
    return figures(step.level, 2) + " V";
  }
  return step.kind == "rest" ? "rest" : amount(step.asked.value_or(step.level), "A", 1);
}

std::string state_text(watch::State state) {
  return fmt::format("{} {}", checks::mark_of(state), name_of(state));
}

}  // namespace ampstair::post::verbs
