// SPDX-License-Identifier: MIT
#include "quantities/fault.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include "diagnostics/nearest.hpp"

namespace ampstair::quantities {

namespace {

/// Units to suggest, the likeliest first: where a unit is missing, and where it is of another kind.
std::vector<std::string_view> usual_units(Dimension dimension) {
  switch (dimension) {
    case Dimension::length:
      return {"m", "cm", "in"};
    case Dimension::area:
      return {"mm2"};
    case Dimension::mass:
      return {"g", "kg"};
    case Dimension::duration:
      return {"min", "s"};
    case Dimension::temperature:
      return {"degC", "degF", "K"};
    case Dimension::temperature_difference:
      return {"K", "Fdeg"};
    case Dimension::resistance:
      return {"mohm", "ohm"};
    case Dimension::molar_energy:
      return {"kJ/mol"};
    case Dimension::specific_energy:
      return {"kJ/kg"};
    case Dimension::angle:
      return {"mrad", "deg"};
    default:
      return {si_unit(dimension)};
  }
}

std::string_view likely_unit(Dimension dimension) {
  return dimension == Dimension::length ? "mm" : usual_units(dimension).front();
}

bool is_temperature(Dimension dimension) {
  return dimension == Dimension::temperature || dimension == Dimension::temperature_difference;
}

bool is_bare(Dimension dimension) {
  return dimension == Dimension::ratio || dimension == Dimension::count;
}

std::string needs(Dimension dimension) {
  if (dimension == Dimension::ratio) {
    return "a bare number or a percentage";
  }
  return dimension == Dimension::count ? "a bare whole number" : with_article(name_of(dimension));
}

std::string example(Dimension dimension) {
  switch (dimension) {
    case Dimension::ratio:
      return "0.90 or 90 %";
    case Dimension::count:
      return "24";
    case Dimension::length:
      return "1.10 m, 0.5 mm or 3/64 in";
    case Dimension::duration:
      return "22 min, or 1 h 20 min";
    default:
      return fmt::format("a number with its unit, e.g. 12 {}", likely_unit(dimension));
  }
}

/// Replaces the comma of "1,5" and says what it could have been.
std::string without_comma(std::string_view number, std::string_view unit) {
  const auto comma = number.find(',');
  std::string point(number);
  point[comma] = '.';
  const std::string tail = unit.empty() ? "" : fmt::format(" {}", unit);
  if (number.size() - comma == 4 && number.substr(0, comma) != "0") {
    std::string joined(number);
    joined.erase(comma, 1);
    return fmt::format("write {0}{2}, or {1}{2} if the comma separates thousands", point, joined,
                       tail);
  }
  return fmt::format("write {}{}", point, tail);
}

bool digit(char c) {
  return std::isdigit(static_cast<unsigned char>(c)) != 0;
}

std::optional<Fault> decimal_comma(std::string_view text) {
  const auto comma = text.find(',');
  if (comma == std::string_view::npos || comma == 0 || comma + 1 == text.size() ||
      !digit(text[comma - 1]) || !digit(text[comma + 1])) {
    return std::nullopt;
  }
  const auto head = text.substr(0, comma);
  if (!std::all_of(head.begin(), head.end(), [](char c) { return digit(c) || c == '-'; })) {
    return std::nullopt;
  }
  auto end = comma + 1;
  while (end < text.size() && digit(text[end])) {
    ++end;
  }
  const auto number = text.substr(0, end);
  return Fault{"E113", fmt::format("'{}' uses a decimal comma.", shortened(number)),
               without_comma(number, trimmed(text.substr(end)))};
}

bool clock_time(std::string_view text) {
  const auto colon = text.find(':');
  return colon != std::string_view::npos && colon > 0 && colon + 1 < text.size() &&
         digit(text[colon - 1]) && digit(text[colon + 1]);
}

/// A unit of the wanted dimension spelled almost like the text; empty: none.
std::string nearest_unit(std::string_view text, Dimension dimension) {
  static constexpr std::array candidates{
      "m",    "mm",   "cm",    "in",    "ft",     "mm2",    "g",      "kg",    "s",   "min",  "h",
      "degC", "degF", "K",     "Cdeg",  "Fdeg",   "A",      "mA",     "V",     "mV",  "W",    "ohm",
      "mohm", "m/s",  "W/m/K", "kg/m3", "J/kg/K", "W/m2/K", "kJ/mol", "J/mol", "1/K", "mrad", "%"};
  std::vector<std::string> fitting;
  for (const std::string_view candidate : candidates) {
    if (read_unit(candidate, dimension).fits) {
      fitting.emplace_back(candidate);
    }
  }
  const auto near = diagnostics::nearest_words(text, fitting);
  return near.empty() || text.size() < 2 ? std::string() : near.front();
}

std::string did_you_mean(const Asked& asked, const NumberText& number) {
  if (is_bare(asked.dimension)) {
    return fmt::format("did you mean {}?", number.text);
  }
  return fmt::format("did you mean {} {}?", number.text, likely_unit(asked.dimension));
}

Fault unit_unknown(const Asked& asked, const NumberText& number, std::string_view unit) {
  const auto nearest =
      nearest_unit(unit.substr(0, std::min<std::size_t>(unit.size(), 60)), asked.dimension);
  std::string remedy = nearest.empty() ? fmt::format("write {}", example(asked.dimension))
                                       : fmt::format("did you mean {} {}?", number.text, nearest);
  return {"E114",
          fmt::format("{} needs {}; '{}' is no unit that is known.", asked.subject,
                      needs(asked.dimension), shortened(unit)),
          std::move(remedy)};
}

/// degC for a difference, Cdeg for a temperature.
Fault zero_confused(const Asked& asked, const NumberText& number, std::string_view unit,
                    const UnitReading& reading) {
  const bool fahrenheit =
      unit.find('F') != std::string_view::npos || unit.find("ahrenheit") != std::string_view::npos;
  if (reading.has_zero) {
    return {"E111",
            fmt::format("{} needs a temperature difference; '{}' is a temperature.", asked.subject,
                        unit),
            fmt::format("write {} {}", number.text, fahrenheit ? "Fdeg" : "Cdeg or K")};
  }
  return {
      "E111",
      fmt::format("{} needs a temperature; '{}' is a temperature difference.", asked.subject, unit),
      fmt::format("write {} {}", number.text, fahrenheit ? "degF" : "degC")};
}

}  // namespace

std::optional<Fault> fault_of_text(const Asked& asked) {
  const auto text = asked.text;
  if (auto comma = decimal_comma(text)) {
    return comma;
  }
  if (asked.dimension == Dimension::duration && clock_time(text)) {
    return Fault{"E140",
                 "durations with colons are refused (some YAML readers turn 1:22:00 into the "
                 "number 4920, others keep text).",
                 "write 22 min, or 1 h 20 min"};
  }
  constexpr std::string_view typeset_minus = "\u2212";
  if (text.rfind(typeset_minus, 0) == 0) {
    return Fault{"E115",
                 fmt::format("{} begins with a typeset minus sign (read {}).", asked.subject,
                             shortened(text)),
                 fmt::format("write -{}", shortened(text.substr(typeset_minus.size())))};
  }
  return std::nullopt;
}

Fault not_a_number(const Asked& asked) {
  std::string remedy = fmt::format("write {}", example(asked.dimension));
  const auto read = asked.text.empty() ? "nothing" : shortened(asked.text);
  return {"E115", fmt::format("{} is not a number (read {}).", asked.subject, read),
          std::move(remedy)};
}

Fault too_large(const Asked& asked) {
  return {"E117",
          fmt::format("{} is too large or too small for a number (read {}).", asked.subject,
                      shortened(asked.text)),
          fmt::format("write {}", example(asked.dimension))};
}

Fault unit_missing(const Asked& asked, const NumberText& number) {
  const auto units = usual_units(asked.dimension);
  const double si = [&] {
    const auto first = read_unit(units.front(), asked.dimension);
    return first.factor * number.value + first.offset;
  }();
  std::string choices = fmt::format("{} {}", number.text, units.front());
  for (std::size_t i = 1; i < units.size(); ++i) {
    choices += fmt::format("{}{} {}", i + 1 == units.size() ? " or " : ", ",
                           significant(from_si(si, units[i], asked.dimension), 3), units[i]);
  }
  return {"E110", fmt::format("{} has no unit (read {}).", asked.subject, shortened(number.text)),
          fmt::format("write {}; bare numbers are only accepted for ratios and counts", choices)};
}

Fault unit_refused(const Asked& asked, const NumberText& number, std::string_view unit,
                   const UnitReading& reading) {
  if (!reading.known) {
    return unit_unknown(asked, number, unit);
  }
  const bool difference = reading.kind == "a temperature difference";
  if ((asked.dimension == Dimension::temperature && difference) ||
      (asked.dimension == Dimension::temperature_difference && reading.has_zero)) {
    return zero_confused(asked, number, unit, reading);
  }
  std::string what =
      fmt::format("{} needs {}; '{}' is ", asked.subject, needs(asked.dimension), shortened(unit));
  what += reading.kind.empty() ? "something else" : reading.kind;
  if (!reading.name.empty()) {
    what += fmt::format(" ({})", reading.name);
  }
  const bool inch_mark = asked.dimension == Dimension::length && unit == "\"";
  return {
      "E111", what + ".",
      inch_mark ? fmt::format("did you mean {} in?", number.text) : did_you_mean(asked, number)};
}

namespace {

/// "C" or "F" standing alone or as the degree of a compound unit ("W/m/C").
char ambiguous_degree(std::string_view unit, Dimension dimension) {
  if (is_temperature(dimension)) {
    return unit == "C" || unit == "c" ? 'C' : unit == "F" || unit == "f" ? 'F' : '\0';
  }
  const bool per_degree =
      dimension == Dimension::conductivity || dimension == Dimension::heat_capacity ||
      dimension == Dimension::film_coefficient || dimension == Dimension::per_kelvin;
  const bool ends =
      unit.size() > 1 && unit[unit.size() - 2] == '/' && (unit.back() == 'C' || unit.back() == 'F');
  return per_degree && ends ? unit.back() : '\0';
}

}  // namespace

std::optional<Fault> fault_of_unit(const Asked& asked, const NumberText& number,
                                   std::string_view unit) {
  if (const char degree = ambiguous_degree(unit, asked.dimension); degree != '\0') {
    const std::string name = degree == 'C' ? "Celsius" : "Fahrenheit";
    std::string what = fmt::format("'{}' is ambiguous ({}, {} temperature or {} difference).", unit,
                                   degree == 'C' ? "coulomb" : "farad", name, name);
    if (is_temperature(asked.dimension)) {
      return Fault{"E112", std::move(what),
                   fmt::format("write {0} deg{1} for a temperature, {0} {1}deg for a difference",
                               number.text, degree)};
    }
    return Fault{"E112", std::move(what),
                 fmt::format("write {} {}{}", number.text, unit.substr(0, unit.size() - 1),
                             degree == 'C' ? "K" : "Fdeg")};
  }
  static constexpr std::array mega{"Mohm", "Mm", "MA", "MV", "Ms", "Mg"};
  const bool slip = std::find(mega.begin(), mega.end(), unit) != mega.end() &&
                    read_unit(unit, asked.dimension).fits;
  if (slip) {
    return Fault{
        "E116", fmt::format("{} has the unit '{}': a capital M is a million.", asked.subject, unit),
        fmt::format("did you mean {} m{}? A million is written out: {}e6 {}", number.text,
                    unit.substr(1), number.text, unit.substr(1))};
  }
  return std::nullopt;
}

}  // namespace ampstair::quantities
