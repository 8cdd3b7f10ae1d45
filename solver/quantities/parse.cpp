// SPDX-License-Identifier: MIT
#include "quantities/parse.hpp"

#include <fmt/format.h>

#include <cctype>
#include <cmath>
#include <cstddef>
#include <utility>

#include "quantities/fault.hpp"
#include "quantities/number_text.hpp"
#include "quantities/unit.hpp"

namespace ampstair::quantities {

namespace {

Parsed refused(Fault fault) {
  return {0.0, std::move(fault)};
}

Parsed checked(double si, const Asked& asked) {
  if (!std::isfinite(si)) {
    return refused(too_large(asked));
  }
  if (asked.dimension == Dimension::temperature && si < 0.0) {
    return refused(
        {"E118",
         fmt::format("{} is below absolute zero (read {}).", asked.subject, shortened(asked.text)),
         "write a temperature above -273.15 degC, -459.67 degF or 0 K"});
  }
  return {si, std::nullopt};
}

Parsed bare(const Asked& asked, const NumberText& number) {
  if (asked.dimension == Dimension::count && number.value != std::floor(number.value)) {
    return refused({"E115",
                    fmt::format("{} needs a whole number (read {}).", asked.subject, number.text),
                    fmt::format("write {}", significant(std::round(number.value), 9))});
  }
  return checked(number.value, asked);
}

/// One number with its unit.
Parsed term(const Asked& asked, const NumberText& number, std::string_view unit) {
  if (number.state == NumberText::State::none) {
    return refused(not_a_number(asked));
  }
  if (number.state == NumberText::State::too_large) {
    return refused(too_large(asked));
  }
  const bool bare_kind = asked.dimension == Dimension::ratio || asked.dimension == Dimension::count;
  if (unit.empty()) {
    return bare_kind ? bare(asked, number) : refused(unit_missing(asked, number));
  }
  if (auto fault = fault_of_unit(asked, number, unit)) {
    return refused(std::move(*fault));
  }
  // "0.00393 /K" is common in tables; UDUNITS-2 wants a numerator
  const std::string spelled = unit.front() == '/' ? "1" + std::string(unit) : std::string(unit);
  const UnitReading reading = read_unit(spelled, asked.dimension);
  if (!reading.fits) {
    return refused(unit_refused(asked, number, unit, reading));
  }
  return checked(reading.factor * number.value + reading.offset, asked);
}

/// Where the next term of a sum begins: a digit after white space; npos: nowhere.
std::size_t next_term(std::string_view text) {
  for (std::size_t i = 1; i < text.size(); ++i) {
    if (text[i - 1] == ' ' && std::isdigit(static_cast<unsigned char>(text[i])) != 0) {
      return i;
    }
  }
  return std::string_view::npos;
}

}  // namespace

Parsed parse_quantity(std::string_view text, Dimension dimension, std::string_view subject) {
  const Asked asked{trimmed(text), dimension, subject};
  if (auto fault = fault_of_text(asked)) {
    return refused(std::move(*fault));
  }
  const bool sums = dimension == Dimension::duration || dimension == Dimension::length;
  double sum = 0.0;
  std::string_view left = asked.text;
  do {
    const NumberText number = read_number(left);
    const auto end = sums ? next_term(number.rest) : std::string_view::npos;
    const Parsed part = term(asked, number, trimmed(number.rest.substr(0, end)));
    if (part.fault) {
      return part;
    }
    sum += part.si;
    left = end == std::string_view::npos ? std::string_view() : number.rest.substr(end);
  } while (!left.empty());
  return checked(sum, asked);
}

}  // namespace ampstair::quantities
