// SPDX-License-Identifier: MIT
#include "sheet/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <utility>

#include "quantities/parse.hpp"

namespace ampstair::sheet {

namespace {

std::string_view example_quantity(Dimension dimension) {
  switch (dimension) {
    case Dimension::ratio:
      return "0.90";
    case Dimension::count:
      return "24";
    case Dimension::length:
      return "1.10 m";
    case Dimension::area:
      return "16 mm2";
    case Dimension::mass:
      return "68 g";
    case Dimension::duration:
      return "22 min";
    case Dimension::temperature:
      return "11 degC";
    case Dimension::temperature_difference:
      return "5 K";
    case Dimension::current:
      return "31 A";
    case Dimension::voltage:
      return "2.2 V";
    case Dimension::power:
      return "10 W";
    case Dimension::resistance:
      return "0.35 mohm";
    case Dimension::resistivity:
      return "1.7241e-8 ohm m";
    case Dimension::speed:
      return "0.25 m/s";
    case Dimension::conductivity:
      return "0.042 W/m/K";
    case Dimension::density:
      return "500 kg/m3";
    case Dimension::heat_capacity:
      return "1600 J/kg/K";
    case Dimension::film_coefficient:
      return "12 W/m2/K";
    case Dimension::molar_energy:
      return "110 kJ/mol";
    case Dimension::specific_energy:
      return "206 kJ/kg";
    case Dimension::per_second:
      return "1e9 1/s";
    case Dimension::per_kelvin:
      return "0.00393 1/K";
    case Dimension::angle:
      return "2.6 mrad";
  }
  return "";
}

std::string example_mapping(const Declaration& keys, const std::string& first) {
  std::string inner = first;
  for (const Key& key : keys.keys) {
    if (key.need.kind == Need::Kind::required) {
      inner += fmt::format("{}{}: {}", inner.empty() ? "" : ", ", key.name, example_of(key));
    }
  }
  return "{" + (inner.empty() ? "..." : inner) + "}";
}

std::string with_unit(Dimension dimension) {
  const auto unit = quantities::si_unit(dimension);
  std::string text(quantities::name_of(dimension));
  if (dimension == Dimension::ratio) {
    return text + " (bare number or %)";
  }
  if (dimension == Dimension::count) {
    return text + " (bare whole number)";
  }
  return text + fmt::format(" ({} or the like, e.g. {})",
                            dimension == Dimension::temperature ? "degC, degF, K" : unit,
                            example_quantity(dimension));
}

std::string bounded(std::string text, const Bounds& bounds, Dimension dimension) {
  const auto limits = describe_bounds(bounds, dimension);
  return limits.empty() ? text : text + ", " + limits;
}

struct Describe {
  std::string operator()(const NumberForm& form) const {
    return bounded(with_unit(form.dimension), form.bounds, form.dimension);
  }
  std::string operator()(const TextForm& form) const {
    if (form.options.empty()) {
      return "text";
    }
    std::vector<std::string> words;
    for (const auto& option : form.options) {
      words.push_back(option.word);
    }
    return enumerated(words);
  }
  std::string operator()(const TruthForm& /*form*/) const { return "true or false"; }
  std::string operator()(const TableForm& form) const {
    return bounded(with_unit(form.dimension), form.bounds, form.dimension) +
           "; or points against temperature [{at: 20 degC, value: ...}, ...]";
  }
  std::string operator()(const TextsForm& /*form*/) const { return "list of texts"; }
  std::string operator()(const NodesForm& form) const { return "list: " + form.item; }
  std::string operator()(const MappingForm& form) const { return "mapping: " + form.keys->name; }
  std::string operator()(const TextOrMappingForm& form) const {
    return "name, or mapping: " + form.mapping.keys->name;
  }
  std::string operator()(const ListForm& form) const {
    const auto [name, alone] = std::pair(form.keys->name, form.keys->alone);
    return "list of: " + name + (alone.empty() ? "" : "; or one alone; or just its " + alone);
  }
  std::string operator()(const AlternativesForm& form) const {
    return "list, each a " + form.choices->discriminator;
  }
};

struct Example {
  std::string operator()(const NumberForm& form) const {
    return std::string(example_quantity(form.dimension));
  }
  std::string operator()(const TextForm& form) const {
    return form.options.empty() ? "..." : form.options.front().word;
  }
  std::string operator()(const TruthForm& /*form*/) const { return "true"; }
  std::string operator()(const TableForm& form) const {
    return std::string(example_quantity(form.dimension));
  }
  std::string operator()(const TextsForm& /*form*/) const { return "[...]"; }
  std::string operator()(const NodesForm& /*form*/) const { return "[{...}]"; }
  std::string operator()(const MappingForm& form) const { return example_mapping(*form.keys, {}); }
  std::string operator()(const TextOrMappingForm& /*form*/) const { return "..."; }
  std::string operator()(const ListForm& form) const {
    return "[" + example_mapping(*form.keys, {}) + "]";
  }
  std::string operator()(const AlternativesForm& form) const {
    const auto& choices = *form.choices;
    const auto& first = choices.choices.front();
    return "[" + example_mapping(*first.keys, choices.discriminator + ": " + first.word) + "]";
  }
};

}  // namespace

std::string excerpt(std::string_view text) {
  constexpr std::size_t longest = 60;
  std::size_t end = std::min(text.size(), longest);
  while (end > 0 && end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) {
    --end;
  }
  std::string result(text.substr(0, end));
  for (char& c : result) {
    c = c == '\n' || c == '\r' || c == '\t' ? ' ' : c;
  }
  return end < text.size() ? result + "..." : result;
}

std::string enumerated(const std::vector<std::string>& words, std::string_view last) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string_view separator = i + 1 == words.size() ? last : ", ";
    text += i == 0 ? words[i] : std::string(separator) + words[i];
  }
  return text;
}

std::string example_of(const Key& key) {
  if (!key.example.empty()) {
    return key.example;
  }
  return key.need.default_text.empty() ? std::visit(Example{}, key.form) : key.need.default_text;
}

std::string describe_form(const Form& form) {
  return std::visit(Describe{}, form);
}

std::string describe_bounds(const Bounds& bounds, Dimension dimension) {
  std::string text;
  if (bounds.least) {
    text = fmt::format("{} {}", bounds.least_excluded ? "greater than" : "at least",
                       quantities::format(*bounds.least, dimension));
  }
  if (bounds.most) {
    text += fmt::format("{}at most {}", text.empty() ? "" : " and ",
                        quantities::format(*bounds.most, dimension));
  }
  return text;
}

std::string describe_need(const Key& key) {
  if (const auto* truth = std::get_if<TruthForm>(&key.form)) {
    return fmt::format("default {}", truth->default_value);
  }
  switch (key.need.kind) {
    case Need::Kind::required:
      return "required";
    case Need::Kind::optional:
      return "optional";
    case Need::Kind::by_default:
      break;
  }
  return key.need.default_text.empty()
             ? fmt::format("default: its own defaults ({})", key.need.default_source)
             : fmt::format("default {} ({})", key.need.default_text, key.need.default_source);
}

}  // namespace ampstair::sheet
