// SPDX-License-Identifier: MIT
#include "report/words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "checks/amounts.hpp"
#include "checks/sentences.hpp"
#include "checks/zero_celsius.hpp"
#include "report/html.hpp"

namespace ampstair::post::report {

namespace {

constexpr double inch = 0.0254;  // m
constexpr double minute = 60.0;  // s

std::string fahrenheit(double kelvin) {
  return checks::figures((kelvin - celsius_zero) * 1.8 + 32.0, 0) + " °F";
}

}  // namespace

std::string both_temperatures(double kelvin) {
  return fmt::format("{} <span class=\"other\">({})</span>", checks::temperature_text(kelvin),
                     fahrenheit(kelvin));
}

std::string both_readings(const checks::Reading& reading) {
  return fmt::format("{} <span class=\"other\">({})</span>", checks::reading_text(reading),
                     fahrenheit(reading.temperature));
}

std::string both_lengths(double metres) {
  const double inches = std::round(metres / inch);
  const double feet = std::floor(inches / 12.0);
  const std::string imperial = feet > 0.0
                                   ? fmt::format("{:.0f} ft {:.0f} in", feet, inches - 12.0 * feet)
                                   : fmt::format("{:.0f} in", inches);
  return fmt::format("{} m <span class=\"other\">({})</span>", checks::figures(metres, 3),
                     imperial);
}

std::string place(const checks::Spot& spot) {
  return spot.name.empty() ? both_lengths(spot.position)
                           : fmt::format("{}, {}", escaped(spot.name), both_lengths(spot.position));
}

std::string minutes(double seconds) {
  return checks::figures(seconds / minute, 1);
}

std::string crossing_minute(const checks::Crossing& crossing) {
  constexpr double finest = 0.1;  // min, as moments are printed
  const std::string at = minutes(crossing.time);
  return crossing.error ? fmt::format("{} ± {}", at,
                                      checks::figures(
                                          std::ceil(*crossing.error / minute / finest) * finest, 1))
                        : at;
}

std::string amperes(const std::optional<double>& value) {
  return value ? checks::figures(*value, 1) + " A" : dash;
}

std::string asked(const checks::StepFinding& step) {
  if (step.kind == "rest") {
    return "rest";
  }
  if (step.kind == "hold_voltage") {
    return checks::figures(step.level, 2) + " V";
  }
  return amperes(step.asked.value_or(step.level));
}

std::string rest_words(const checks::StepSettling& step) {
  return fmt::format("<b>{}</b>; {}", checks::rest_word(step), checks::rest_remark(step));
}

std::string state_mark(watch::State state) {
  return fmt::format("<span class=\"state {}\"><b>{}</b> {}</span>",
                     state == watch::State::cannot_say ? "unsaid" : name_of(state),
                     checks::mark_of(state), name_of(state));
}

}  // namespace ampstair::post::report
