// SPDX-License-Identifier: MIT
#include "quantities/unit.hpp"

#include <udunits2.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <cstdarg>
#include <initializer_list>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <utility>

#include "diagnostics/contract.hpp"
#include "diagnostics/problem.hpp"

namespace ampstair::quantities {

namespace {

struct FreeSystem {
  void operator()(ut_system* system) const { ut_free_system(system); }
};
struct FreeUnit {
  void operator()(ut_unit* unit) const { ut_free(unit); }
};
struct FreeConverter {
  void operator()(cv_converter* converter) const { cv_free(converter); }
};
using System = std::unique_ptr<ut_system, FreeSystem>;
using Unit = std::unique_ptr<ut_unit, FreeUnit>;
using Converter = std::unique_ptr<cv_converter, FreeConverter>;

int say_nothing(const char* /*format*/, va_list /*arguments*/) {
  return 0;  // what is wrong with a unit is told by our own messages
}

Unit parse(ut_system* system, const std::string& text) {
  return Unit(ut_parse(system, text.c_str(), UT_UTF8));
}

System load() {
  ut_set_error_message_handler(say_nothing);
  System system(ut_read_xml(nullptr));
  if (!system) {
    throw diagnostics::InputError("E119", "the units database of UDUNITS-2 cannot be read.",
                                  "install the package libudunits2-data, or let the variable "
                                  "UDUNITS2_XML_PATH name udunits2.xml");
  }
  // differences of temperature, and "deg" for short, have no name in the database
  const Unit cdeg = parse(system.get(), "K");
  const Unit fdeg(ut_scale(5.0 / 9.0, cdeg.get()));
  ut_map_symbol_to_unit("Cdeg", UT_UTF8, cdeg.get());
  ut_map_symbol_to_unit("Fdeg", UT_UTF8, fdeg.get());
  const Unit degree = parse(system.get(), "arc_degree");
  ut_map_symbol_to_unit("deg", UT_UTF8, degree.get());
  return system;
}

/// The parser of UDUNITS-2 keeps state of its own: one at a time.
std::mutex& gate() {
  static std::mutex mutex;
  return mutex;
}

ut_system* the_system() {
  static const System system = load();
  return system.get();
}

bool one_of(std::string_view text, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), text) != words.end();
}

/// UDUNITS-2 counts angles as bare numbers; we do not.
bool spells_angle(std::string_view text) {
  return text.find("rad") != std::string_view::npos || text.find("deg") != std::string_view::npos ||
         text.find("arc") != std::string_view::npos || text.find("gon") != std::string_view::npos ||
         one_of(text, {"°", "'", "\"", "′", "″", "turn", "circle"});
}

Converter between(const Unit& from, const Unit& to) {
  return Converter(ut_get_converter(from.get(), to.get()));
}

/// UDUNITS-2 also converts s to Hz, by the reciprocal; that is no conversion of a value.
bool convertible(ut_system* system, const Unit& unit, std::string_view to) {
  const Unit other = parse(system, to.empty() ? "1" : std::string(to));
  return other && ut_are_convertible(unit.get(), other.get()) != 0 &&
         std::isfinite(cv_convert_double(between(unit, other).get(), 0.0));
}

constexpr std::array<std::pair<std::string_view, std::string_view>, 13> other_kinds{{
    {"C", "charge"},
    {"J", "energy"},
    {"F", "capacitance"},
    {"S", "conductance"},
    {"H", "inductance"},
    {"N", "force"},
    {"Pa", "pressure"},
    {"m3", "volume"},
    {"Hz", "frequency"},
    {"mol", "amount of substance"},
    {"cd", "luminous intensity"},
    {"W/m2", "heat flux"},
    {"J/m3/K", "heat capacity per volume"},
}};

std::string kind_of(ut_system* system, const Unit& unit, std::string_view text, bool has_zero) {
  if (ut_is_dimensionless(unit.get()) != 0) {
    return spells_angle(text) ? "a plane angle" : "a ratio";
  }
  if (!has_zero && one_of(text, {"Cdeg", "Fdeg"})) {
    return "a temperature difference";
  }
  for (int i = static_cast<int>(Dimension::length); i < static_cast<int>(Dimension::angle); ++i) {
    const auto dimension = static_cast<Dimension>(i);
    if (convertible(system, unit, si_unit(dimension))) {
      return with_article(name_of(dimension));
    }
  }
  for (const auto& [unit_text, kind] : other_kinds) {
    if (convertible(system, unit, unit_text)) {
      return with_article(kind);
    }
  }
  return {};
}

bool fits(Dimension wanted, std::string_view text, bool has_zero) {
  switch (wanted) {
    case Dimension::temperature:
      return !one_of(text, {"Cdeg", "Fdeg"});
    case Dimension::temperature_difference:
      return !has_zero;
    case Dimension::angle:
      return spells_angle(text);
    case Dimension::ratio:
      return !spells_angle(text);
    case Dimension::count:
      return false;
    default:
      return true;
  }
}

/// What UDUNITS-2 also reads but a sheet's author hardly means: products with numbers, logarithms,
/// shifted origins.
bool plain(std::string_view text) {
  const auto allowed = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           std::string_view(" /*.^-%'\"()").find(c) != std::string_view::npos ||
           (static_cast<unsigned char>(c) & 0x80U) != 0;
  };
  const auto holds = [text](std::string_view word) { return text.find(word) != text.npos; };
  const bool begins_with_number =
      text.rfind("1/", 0) != 0 && std::isdigit(static_cast<unsigned char>(text.front())) != 0;
  return std::all_of(text.begin(), text.end(), allowed) && !begins_with_number &&
         !holds(" since ") && !holds(" from ") && !holds("re ") && !holds("@");
}

// Alone behind the gate.
UnitReading parse_reading(std::string_view text, Dimension wanted) {
  UnitReading reading;
  ut_system* system = the_system();
  const Unit unit = parse(system, std::string(text));
  if (!unit) {
    return reading;
  }
  reading.known = true;
  const char* name = ut_get_name(unit.get(), UT_ASCII);
  reading.name = name == nullptr ? "" : name;
  if (convertible(system, unit, "K")) {
    const Unit kelvin = parse(system, "K");
    reading.has_zero = cv_convert_double(between(unit, kelvin).get(), 0.0) != 0.0;
  }
  reading.kind = kind_of(system, unit, text, reading.has_zero);
  if (!convertible(system, unit, si_unit(wanted)) || !fits(wanted, text, reading.has_zero)) {
    return reading;
  }
  const std::string si(si_unit(wanted).empty() ? "1" : si_unit(wanted));
  const Converter converter = between(unit, parse(system, si));
  reading.fits = true;
  reading.offset = cv_convert_double(converter.get(), 0.0);
  reading.factor = cv_convert_double(converter.get(), 1.0) - reading.offset;
  return reading;
}

}  // namespace

UnitReading read_unit(std::string_view text, Dimension wanted) {
  constexpr std::size_t longest = 60;  // no unit is longer; noise is not worth parsing
  if (text.empty() || text.size() > longest || !plain(text)) {
    return {};
  }
  const std::scoped_lock lock(gate());
  // A sheet and its materials use the same few units again and again.
  static std::map<std::pair<std::string, Dimension>, UnitReading> fitting;
  const auto known = fitting.find({std::string(text), wanted});
  if (known != fitting.end()) {
    return known->second;
  }
  const UnitReading reading = parse_reading(text, wanted);
  if (reading.fits) {
    fitting.emplace(std::pair(std::string(text), wanted), reading);
  }
  return reading;
}

double from_si(double si, std::string_view unit, Dimension dimension) {
  const UnitReading reading = read_unit(unit, dimension);
  diagnostics::expects(reading.fits, "a hint's unit is of the dimension it is for");
  return (si - reading.offset) / reading.factor;
}

std::string with_article(std::string_view noun) {
  const bool vowel = !noun.empty() && std::string_view("aeio").find(noun[0]) != noun.npos;
  return (vowel ? "an " : "a ") + std::string(noun);
}

}  // namespace ampstair::quantities
