// SPDX-License-Identifier: MIT
#include "checks/amounts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "checks/zero_celsius.hpp"

namespace ampstair::post::checks {

namespace {

constexpr double minute = 60.0;     // s
constexpr double hour = 3600.0;     // s
constexpr double finest = 0.1;      // K, of a temperature printed
constexpr double round_off = 1e-9;  // of a number divided by a digit

/// A stated limit is the user's own number: it is not rounded to three figures.
std::string stated(double kelvin) {
  return fmt::format("{:.5g} °C", kelvin - celsius_zero);
}

}  // namespace

std::string difference_figures(double value, int decimals) {
  const double unit = std::pow(10.0, -decimals);
  return fmt::format("{:+.{}f}", std::abs(value) < 0.5 * unit ? 0.0 : value, decimals);
}

std::string figures(double value, int decimals) {
  if (!std::isfinite(value)) {
    return "-";
  }
  const double size = std::abs(value);
  const int before_point = size >= 1.0 ? static_cast<int>(std::floor(std::log10(size))) + 1 : 0;
  if (before_point > 3) {
    const double unit = std::pow(10.0, before_point - 3);
    return fmt::format("{:.0f}", std::round(value / unit) * unit);
  }
  return fmt::format("{:.{}f}", value, std::min(decimals, 3 - before_point));
}

std::string temperature_text(double kelvin) {
  return figures(kelvin - celsius_zero, 1) + " °C";
}

std::string reading_text(const Reading& reading) {
  if (!reading.time_error) {
    return temperature_text(reading.temperature);
  }
  const double celsius = reading.temperature - celsius_zero;
  const double error = reading.error().value_or(*reading.time_error);
  double digit = finest;
  const auto rounded = [&] { return std::round(celsius / digit) * digit + 0.0; };
  const auto bar_in_digits = [&] {
    return std::ceil((error + std::abs(celsius - rounded())) / digit - round_off);
  };
  while (bar_in_digits() > 9.5) {
    digit *= 10.0;
  }
  const int decimals = digit < 0.5 ? 1 : 0;
  const std::string number = fmt::format("{:.{}f}", rounded(), decimals);
  if (!reading.grid_error) {
    return number + " °C";
  }
  return fmt::format("{} ± {:.{}f} °C", number, std::max(bar_in_digits(), 1.0) * digit, decimals);
}

std::string minute_text(double seconds) {
  return figures(seconds / minute, 1) + " min";
}

std::string span_text(double seconds) {
  if (seconds < minute) {
    return figures(seconds, 1) + " s";
  }
  if (seconds < 3.0 * hour) {
    return figures(seconds / minute, 1) + " min";
  }
  return figures(seconds / hour, 1) + " h";
}

std::string spot_text(const Spot& spot) {
  const std::string position = figures(spot.position, 3) + " m";
  return spot.name.empty() ? position : fmt::format("{} ({})", position, spot.name);
}

std::string_view mark_of(watch::State state) {
  switch (state) {
    case watch::State::clear:
      return "C ○";
    case watch::State::near:
      return "N ◐";
    case watch::State::crossed:
      return "X ●";
    case watch::State::cannot_say:
      break;
  }
  return "? ◇";
}

std::string limit_text(const watch::Item& item) {
  switch (item.kind) {
    case watch::Item::Kind::dose:
      return fmt::format("{:.5g} h at {}", item.reference_duration / hour,
                         stated(item.reference_temperature));
    case watch::Item::Kind::char_depth:
      return fmt::format("char {:.4g} mm", item.depth * 1000.0);
    case watch::Item::Kind::above:
      break;
  }
  const std::string held =
      item.persistence > 0.0 ? fmt::format(" {:.4g} min", item.persistence / minute) : "";
  return "> " + stated(item.limit) + held;
}

}  // namespace ampstair::post::checks
