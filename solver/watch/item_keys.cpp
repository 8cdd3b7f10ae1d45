// SPDX-License-Identifier: MIT
#include "watch/item_keys.hpp"

#include <fmt/format.h>

#include <cstddef>
#include <map>
#include <optional>
#include <utility>

#include "quantities/parse.hpp"

namespace ampstair::watch {

namespace {

using diagnostics::ProblemList;
using quantities::Dimension;

constexpr double year = 365.25 * 86400.0;  // s
constexpr double celsius_zero = 273.15;    // K

sheet::Mapping<ItemSheet> declare() {
  using sheet::optional;
  using sheet::required;
  sheet::Mapping<ItemSheet> keys(
      "watch item",
      "A limit to be watched: 'above' a temperature, an ageing 'dose', or a 'char_depth'. No limit "
      "is built in; each says where it came from.");
  keys.place(&ItemSheet::place)
      .text("name", &ItemSheet::name, required(), "how the verdict refers to this item")
      .example("rubber limit")
      .text("part", &ItemSheet::part, required(),
            "what is watched: conductor, surface, covering, the name of a layer (rubber, braid), "
            "ceramic, wood, ...")
      .example("rubber")
      .number("above", &ItemSheet::above, Dimension::temperature, {0.0, 3000.0, true}, optional(),
              "temperature not to be exceeded; a band {best:, low:, high:, from:} may be given")
      .number("for", &ItemSheet::persistence, Dimension::duration, {0.0, year}, optional(),
              "with 'above': how long the limit must be exceeded without a break to count as "
              "crossed; without it the first moment above counts")
      .choice("dose", &ItemSheet::dose,
              {{"arrhenius", "time weighed by exp(-E/RT), full at 'equal_to'"}}, optional(),
              "law of an ageing dose")
      .number("energy", &ItemSheet::energy, Dimension::molar_energy, {1.0e3, 1.0e6}, optional(),
              "with 'dose': activation energy; a band may be given")
      .text("equal_to", &ItemSheet::equal_to, optional(),
            "with 'dose': time and temperature that make the full dose, as 1000 h at 50 degC")
      .number("char_depth", &ItemSheet::char_depth, Dimension::length, {0.0, 1.0, true}, optional(),
              "depth of char not to be exceeded")
      .number("isotherm", &ItemSheet::isotherm, Dimension::temperature, {373.15, 873.15},
              optional(),
              "with 'char_depth': temperature whose farthest reach is taken as the char front "
              "(300 degC in EN 1995-1-2)")
      .text("from", &ItemSheet::from, optional(), "where the limit came from");
  return keys;
}

std::string called(const ItemSheet& entry) {
  return entry.name.present() ? fmt::format("watch item '{}'", entry.name.value) : "watch item";
}

/// An entry with what is known of it before its keys are compared.
struct Reading {
  const ItemSheet& entry;
  bool at_fault = false;  ///< a text of it could not be read and is told already
  ProblemList& problems;
};

/// A key that means something only beside another one.
void belongs_to(const std::string& owner, bool owner_given, const std::string& key, bool key_given,
                const sheet::Place& place, const ItemSheet& entry, ProblemList& problems) {
  if (key_given && !owner_given) {
    problems.error("E171", place,
                   fmt::format("'{}' of {} means nothing without '{}'.", key, called(entry), owner),
                   fmt::format("leave out '{}', or add '{}'", key, owner));
  }
}

void check_company(const Reading& reading) {
  if (reading.at_fault) {
    return;  // the key that is missed may be the one that could not be read
  }
  const auto& entry = reading.entry;
  auto& problems = reading.problems;
  belongs_to("above", entry.above.given(), "for", entry.persistence.given(),
             entry.persistence.place, entry, problems);
  belongs_to("dose", entry.dose.given(), "energy", entry.energy.given(), entry.energy.place, entry,
             problems);
  belongs_to("dose", entry.dose.given(), "equal_to", entry.equal_to.given(), entry.equal_to.place,
             entry, problems);
  belongs_to("char_depth", entry.char_depth.given(), "isotherm", entry.isotherm.given(),
             entry.isotherm.place, entry, problems);
}

bool one_kind(const Reading& reading) {
  const auto& entry = reading.entry;
  const int kinds =
      int{entry.above.given()} + int{entry.dose.given()} + int{entry.char_depth.given()};
  if (kinds > 1 || (kinds == 0 && !reading.at_fault)) {
    reading.problems.error(
        "E170", entry.place,
        fmt::format("{} has {} 'above', 'dose' and 'char_depth'; an item watches exactly "
                    "one of them.",
                    called(entry), kinds == 0 ? "none of" : "more than one of"),
        kinds == 0 ? "add for example  above: 60 degC"
                   : "write one item for each, with its own name");
  }
  return kinds == 1;
}

bool needs(const Reading& reading, const std::string& owner, const std::string& key, bool given,
           const std::string& example) {
  if (!given && !reading.at_fault) {
    reading.problems.error(
        "E172", reading.entry.place,
        fmt::format("{} has '{}' but no '{}'.", called(reading.entry), owner, key),
        "add for example  " + example);
  }
  return given;
}

/// One half of "1000 h at 50 degC".
std::optional<double> half(const std::string& text, Dimension dimension, const ItemSheet& entry,
                           ProblemList& problems) {
  auto parsed = quantities::parse_quantity(text, dimension, "'equal_to' of " + called(entry));
  if (parsed.fault) {
    problems.error(parsed.fault->code, entry.equal_to.place, parsed.fault->what,
                   parsed.fault->remedy);
    return std::nullopt;
  }
  return parsed.si;
}

bool read_full_dose(const ItemSheet& entry, Item& item, ProblemList& problems) {
  const std::string& text = entry.equal_to.value;
  const std::string between = " at ";
  const auto at = text.find(between);
  if (at == std::string::npos) {
    problems.error("E173", entry.equal_to.place,
                   fmt::format("'equal_to' of {} needs a time and a temperature with 'at' between "
                               "them (read '{}').",
                               called(entry), text),
                   "write for example  equal_to: 1000 h at 50 degC");
    return false;
  }
  const auto duration = half(text.substr(0, at), Dimension::duration, entry, problems);
  const auto temperature =
      half(text.substr(at + between.size()), Dimension::temperature, entry, problems);
  if (!duration || !temperature) {
    return false;
  }
  if (*duration <= 0.0 || *temperature <= 0.0) {
    problems.error("E130", entry.equal_to.place,
                   fmt::format("'equal_to' of {} needs a time above 0 and a temperature above "
                               "absolute zero (read '{}').",
                               called(entry), text),
                   "write for example  equal_to: 1000 h at 50 degC");
    return false;
  }
  item.reference_duration = *duration;
  item.reference_temperature = *temperature;
  return true;
}

bool fill_dose(const Reading& reading, Item& item) {
  const auto& entry = reading.entry;
  item.kind = Item::Kind::dose;
  const bool energy = needs(reading, "dose", "energy", entry.energy.given(), "energy: 110 kJ/mol");
  const bool full =
      needs(reading, "dose", "equal_to", entry.equal_to.given(), "equal_to: 1000 h at 50 degC");
  item.activation_energy = entry.energy.best;
  item.energy_low = entry.energy.low;
  item.energy_high = entry.energy.high;
  return full && read_full_dose(entry, item, reading.problems) && energy;
}

bool fill_char(const Reading& reading, Item& item) {
  const auto& entry = reading.entry;
  item.kind = Item::Kind::char_depth;
  item.depth = entry.char_depth.best;
  item.isotherm = entry.isotherm.best;
  return needs(reading, "char_depth", "isotherm", entry.isotherm.given(), "isotherm: 300 degC");
}

void fill_limit(const ItemSheet& entry, Item& item) {
  item.limit = entry.above.best;
  item.low = entry.above.low;
  item.high = entry.above.high;
  item.persistence = entry.persistence.best;
}

std::string source_of(const ItemSheet& entry) {
  for (const auto* number : {&entry.above, &entry.energy, &entry.char_depth}) {
    if (!entry.from.given() && number->given() && !number->from.empty()) {
      return number->from;
    }
  }
  return entry.from.value;
}

bool fill(const Reading& reading, Item& item) {
  const auto& entry = reading.entry;
  check_company(reading);
  if (!one_kind(reading)) {
    return false;
  }
  item.name = entry.name.value;
  item.part = entry.part.value;
  item.from = source_of(entry);
  if (entry.dose.given()) {
    return fill_dose(reading, item);
  }
  if (entry.char_depth.given()) {
    return fill_char(reading, item);
  }
  fill_limit(entry, item);
  return true;
}

void check_names(const std::vector<ItemSheet>& entries, ProblemList& problems) {
  std::map<std::string, int> lines;
  for (const auto& entry : entries) {
    if (!entry.name.present()) {
      continue;
    }
    const auto [first, is_new] = lines.emplace(entry.name.value, entry.name.place.line);
    if (!is_new) {
      problems.error("E160", entry.name.place,
                     fmt::format("two watch items are named '{}' (first at line {}).",
                                 entry.name.value, first->second),
                     "names tell verdict lines apart; rename one, e.g. " + entry.name.value + " 2");
    }
  }
}

/// The limit had its number been meant in degF, where it was written in degC.
std::optional<double> had_it_been_fahrenheit(const sheet::Number& limit) {
  const std::string unit = "degC";
  const auto at = limit.text.rfind(unit);
  if (at == std::string::npos || at + unit.size() != limit.text.size()) {
    return std::nullopt;
  }
  const auto parsed =
      quantities::parse_quantity(limit.text.substr(0, at) + "degF", Dimension::temperature, "");
  return parsed.fault ? std::nullopt : std::optional(parsed.si);
}

/// Items of one part stand in the order of their limits; an earlier one above a later one is a
/// mistake where Fahrenheit explains it.
void warn_of_fahrenheit(const ItemSheet& earlier, const ItemSheet& later, ProblemList& problems) {
  if (!earlier.above.given() || !later.above.given() || earlier.part.value != later.part.value ||
      earlier.above.best <= later.above.best) {
    return;
  }
  const auto meant = had_it_been_fahrenheit(earlier.above);
  if (!meant || *meant >= later.above.best) {
    return;
  }
  const std::string celsius = fmt::format("{:.4g} degC", *meant - celsius_zero);
  const std::string number = earlier.above.text.substr(0, earlier.above.text.rfind("degC"));
  const std::string fahrenheit = number + "degF";
  problems.warning(
      "W251", earlier.above.place,
      fmt::format("'{}' at {} is above '{}' ({}); {} is {}.", earlier.name.value,
                  earlier.above.text, later.name.value, later.above.text, fahrenheit, celsius),
      fmt::format("write {} or {}", celsius, fahrenheit));
}

/// Whether an error was told between the beginnings of an entry and of the next one.
bool told_within(const std::vector<ItemSheet>& entries, std::size_t i,
                 const ProblemList& problems) {
  for (const auto& problem : problems.sorted()) {
    const bool after_begin = problem.place >= entries[i].place;
    const bool before_next = i + 1 == entries.size() || problem.place < entries[i + 1].place;
    if (problem.severity == diagnostics::Severity::error && after_begin && before_next) {
      return true;
    }
  }
  return false;
}

}  // namespace

const sheet::Mapping<ItemSheet>& item_keys() {
  static const auto keys = declare();
  return keys;
}

std::vector<Item> items_of(const std::vector<ItemSheet>& entries, ProblemList& problems) {
  std::vector<Item> items;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    Item item;
    const Reading reading{entries[i], told_within(entries, i, problems), problems};
    if (fill(reading, item)) {
      items.push_back(std::move(item));
    }
    for (std::size_t later = i + 1; later < entries.size(); ++later) {
      warn_of_fahrenheit(entries[i], entries[later], problems);
    }
  }
  check_names(entries, problems);
  return items;
}

}  // namespace ampstair::watch
