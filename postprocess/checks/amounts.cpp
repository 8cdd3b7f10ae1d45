// SPDX-License-Identifier: MIT
#include "checks/amounts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace ampstair::post::checks {

namespace {

constexpr double celsius_zero = 273.15;  // K
constexpr double minute = 60.0;          // s
constexpr double hour = 3600.0;          // s

}  // namespace

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

}  // namespace ampstair::post::checks
