// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <ostream>
#include <sstream>
#include <string>
#include <vector>

#include "sheet/declaration.hpp"
#include "sheet/nested.hpp"
#include "sheet/wording.hpp"

namespace ampstair::sheet {

namespace {

constexpr std::size_t width = 96;

/// Words filled into lines behind an indentation.
void write_filled(std::ostream& out, const std::string& text, std::size_t indent) {
  std::istringstream words(text);
  std::string line(indent, ' ');
  std::string word;
  while (words >> word) {
    const bool fresh = line.size() == indent;
    if (!fresh && line.size() + 1 + word.size() > width) {
      out << line << '\n';
      line.assign(indent, ' ');
    }
    line += (line.size() == indent ? "" : " ") + word;
  }
  if (line.size() > indent) {
    out << line << '\n';
  }
}

void write_key(std::ostream& out, const Key& key) {
  write_filled(out,
               fmt::format("{}: {}; {}", key.name, describe_form(key.form), describe_need(key)), 2);
  write_filled(out, key.help, 6);
  if (const auto* text = std::get_if<TextForm>(&key.form)) {
    for (const auto& option : text->options) {
      write_filled(out, fmt::format("{}: {}", option.word, option.help), 6);
    }
  }
}

void write_keys(std::ostream& out, const Declaration& keys) {
  for (const Key& key : keys.keys) {
    write_key(out, key);
  }
}

void write_choices(std::ostream& out, const Choices& choices) {
  std::vector<std::string> words;
  for (const auto& choice : choices.choices) {
    words.push_back(choice.word);
  }
  out << '\n' << choices.discriminator << '\n';
  write_filled(out, choices.help, 2);
  write_filled(out, fmt::format("{}: {}; required", choices.discriminator, enumerated(words)), 2);
  for (const auto& choice : choices.choices) {
    out << '\n' << choices.discriminator << ": " << choice.word << '\n';
    write_filled(out, choice.keys->help, 2);
    write_keys(out, *choice.keys);
  }
}

void write_introduction(std::ostream& out) {
  out << '\n';
  write_filled(out,
               "Quantities are text with a unit (1.10 m, 3/64 in, 1 h 20 min); bare numbers only "
               "for ratios and counts. Any number may also be written {best:, low:, high:, from:}, "
               "where low to high is a 90 % band (with shape: uniform, evenly spread between "
               "them) and from says where it comes from.",
               0);
}

}  // namespace

void write_reference(std::ostream& out, const Declaration& keys) {
  out << keys.name << '\n';
  write_filled(out, keys.help, 2);
  write_introduction(out);
  out << '\n';
  write_keys(out, keys);
  for (const auto& section : nested_of(keys)) {
    if (section.choices) {
      write_choices(out, *section.choices);
    } else {
      out << '\n' << section.keys->name << '\n';
      write_filled(out, section.keys->help, 2);
      write_keys(out, *section.keys);
    }
  }
}

}  // namespace ampstair::sheet
