// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <string>
#include <string_view>

#include "quantities/number_text.hpp"
#include "quantities/parse.hpp"

namespace ampstair::quantities {

namespace {

constexpr int digits = 4;

std::string scaled(double value, double factor, std::string_view unit) {
  return fmt::format("{} {}", significant(value / factor, digits), unit);
}

/// Two decimals where they say it all, else four significant digits.
std::string two_decimals(double value) {
  const double rounded = std::round(value * 100.0) / 100.0;
  const bool exact = std::abs(rounded - value) <= 1e-9 * std::abs(value);
  return exact && std::abs(value) < 1e4 ? fmt::format("{:.2f}", rounded)
                                        : significant(value, digits);
}

std::string length(double metres) {
  const double size = std::abs(metres);
  return size >= 0.1 || size == 0.0 ? two_decimals(metres) + " m" : scaled(metres, 1e-3, "mm");
}

std::string duration(double seconds) {
  const double size = std::abs(seconds);
  if (size < 120.0 && size != 60.0) {
    return scaled(seconds, 1.0, "s");
  }
  if (size < 3600.0) {
    return scaled(seconds, 60.0, "min");
  }
  const double minutes = std::round(size / 60.0);
  const double hours = std::floor(minutes / 60.0);
  const double rest = minutes - 60.0 * hours;
  if (rest == 0.0 || hours >= 100.0) {
    return scaled(seconds, 3600.0, "h");
  }
  return fmt::format("{}{:.0f} h {:.0f} min", seconds < 0.0 ? "-" : "", hours, rest);
}

/// In the unit itself, or in thousandths of it where it is small.
std::string or_milli(double value, double below, std::string_view unit) {
  const bool small = value != 0.0 && std::abs(value) < below;
  return small ? scaled(value, 1e-3, "m" + std::string(unit)) : scaled(value, 1.0, unit);
}

}  // namespace

std::string format(double si, Dimension dimension) {
  switch (dimension) {
    case Dimension::ratio:
      return two_decimals(si);
    case Dimension::count:
      return fmt::format("{:.0f}", si);
    case Dimension::length:
      return length(si);
    case Dimension::area:
      return std::abs(si) < 0.01 ? scaled(si, 1e-6, "mm2") : scaled(si, 1.0, "m2");
    case Dimension::mass:
      return std::abs(si) < 1.0 ? scaled(si, 1e-3, "g") : scaled(si, 1.0, "kg");
    case Dimension::duration:
      return duration(si);
    case Dimension::temperature:
      return fmt::format("{:.1f} degC", si - 273.15);
    case Dimension::current:
      return or_milli(si, 0.1, "A");
    case Dimension::voltage:
      return or_milli(si, 0.1, "V");
    case Dimension::power:
      return std::abs(si) >= 1e4 ? scaled(si, 1e3, "kW") : or_milli(si, 0.1, "W");
    case Dimension::resistance:
      return or_milli(si, 1.0, "ohm");
    case Dimension::molar_energy:
      return scaled(si, 1e3, "kJ/mol");
    case Dimension::specific_energy:
      return scaled(si, 1e3, "kJ/kg");
    case Dimension::angle:
      return or_milli(si, 0.1, "rad");
    default:
      return scaled(si, 1.0, si_unit(dimension));
  }
}

}  // namespace ampstair::quantities
