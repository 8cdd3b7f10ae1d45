// SPDX-License-Identifier: MIT
#include "checks/stored_items.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>

#include "checks/columns.hpp"
#include "checks/zero_celsius.hpp"
#include "diagnostics/problem.hpp"

namespace ampstair::post::checks {

namespace {

using Kind = watch::Item::Kind;

Kind kind_of(const std::string& word, const std::string& name) {
  if (word == "above") {
    return Kind::above;
  }
  if (word == "dose") {
    return Kind::dose;
  }
  if (word == "char_depth") {
    return Kind::char_depth;
  }
  throw diagnostics::InputError(
      "E720",
      fmt::format("The record's watch item '{}' is of kind '{}', which this program does not know.",
                  name, word),
      "judge it with a newer program, or give watch items of your own with --watch FILE");
}

std::optional<double> unless_missing(double value, double zero) {
  return std::isnan(value) ? std::nullopt : std::optional(value + zero);
}

/// A limit that is not a number is exceeded by nothing and would look clear: it is refused.
void check_complete(watch::Item& item) {
  if (std::isnan(item.persistence)) {
    item.persistence = 0.0;
  }
  const bool complete = item.kind == Kind::above ? !std::isnan(item.limit)
                        : item.kind == Kind::char_depth
                            ? !std::isnan(item.depth) && !std::isnan(item.isotherm)
                            : !std::isnan(item.activation_energy) &&
                                  !std::isnan(item.reference_duration) &&
                                  !std::isnan(item.reference_temperature);
  if (!complete) {
    throw diagnostics::InputError(
        "E721", fmt::format("The record's watch item '{}' lacks a number it needs.", item.name),
        "give watch items of your own with --watch FILE, or march the run sheet again");
  }
}

}  // namespace

std::vector<watch::Item> stored_items(const Histories& histories) {
  std::vector<watch::Item> items;
  const Columns columns(histories, "watch");
  if (!columns.has("name")) {
    return items;
  }
  const auto names = columns.texts("name");
  const auto parts = columns.texts("part");
  const auto kinds = columns.texts("kind");
  const auto sources = columns.texts("source");
  items.resize(names.size());
  for (std::size_t i = 0; i < names.size(); ++i) {
    items[i].name = names[i];
    items[i].part = parts.at(i);
    items[i].kind = kind_of(kinds.at(i), names[i]);
    items[i].from = sources.at(i);
  }
  const auto fill = [&](const std::string& column, double watch::Item::*member, double zero) {
    const auto values = columns.numbers_if_any(column, items.size());
    for (std::size_t i = 0; i < items.size(); ++i) {
      items[i].*member = values.at(i) + zero;
    }
  };
  const auto fill_band = [&](const std::string& column, std::optional<double> watch::Item::*member,
                             double zero) {
    const auto values = columns.numbers_if_any(column, items.size());
    for (std::size_t i = 0; i < items.size(); ++i) {
      items[i].*member = unless_missing(values.at(i), zero);
    }
  };
  fill("limit", &watch::Item::limit, celsius_zero);
  fill_band("low", &watch::Item::low, celsius_zero);
  fill_band("high", &watch::Item::high, celsius_zero);
  fill("persistence", &watch::Item::persistence, 0.0);
  fill("activation_energy", &watch::Item::activation_energy, 0.0);
  fill_band("activation_energy_low", &watch::Item::energy_low, 0.0);
  fill_band("activation_energy_high", &watch::Item::energy_high, 0.0);
  fill("reference_duration", &watch::Item::reference_duration, 0.0);
  fill("reference_temperature", &watch::Item::reference_temperature, celsius_zero);
  fill("depth", &watch::Item::depth, 0.0);
  fill("isotherm", &watch::Item::isotherm, celsius_zero);
  std::for_each(items.begin(), items.end(), check_complete);
  return items;
}

}  // namespace ampstair::post::checks
