// SPDX-License-Identifier: MIT
#include "verbs/text_table.hpp"

#include <algorithm>
#include <cstdlib>

namespace ampstair::post::verbs {

namespace {

constexpr std::size_t line_width = 100;

bool begins_character(char byte) {
  return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U;
}

/// Control characters of a user's names would break the table.
std::string on_one_line(std::string_view text) {
  std::string line(text);
  std::replace_if(
      line.begin(), line.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20U; }, ' ');
  return line;
}

/// Where the word that begins at `at` ends; a value is one word with its bar and unit.
std::size_t end_of_word(const std::string& text, std::size_t at) {
  constexpr std::string_view bar = " ± ";
  std::size_t end = std::min(text.find(' ', at), text.size());
  if (text.compare(end, bar.size(), bar) == 0) {
    for (int blanks = 0; blanks < 3 && end < text.size(); ++blanks) {  // before ±, amount and unit
      end = std::min(text.find(' ', end + 1), text.size());
    }
  }
  return end;
}

}  // namespace

std::size_t length_of(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), begins_character));
}

std::string cut_to(std::string_view text, std::size_t width) {
  if (length_of(text) <= width || width == 0) {
    return std::string(text);
  }
  std::string cut;
  std::size_t characters = 0;
  for (const char byte : text) {
    characters += begins_character(byte) ? 1U : 0U;
    if (characters == width) {
      break;
    }
    cut += byte;
  }
  return cut + "…";
}

std::string table_row(const std::vector<Column>& columns, const std::vector<std::string>& fields) {
  std::string row;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const auto width = static_cast<std::size_t>(std::abs(columns[i].width));
    const std::string text = i < fields.size() ? cut_to(on_one_line(fields[i]), width) : "";
    const std::string blanks(width - length_of(text), ' ');
    row += "  " + (columns[i].width < 0 ? blanks + text : text + blanks);
  }
  row.erase(row.find_last_not_of(' ') + 1);
  return row + "\n";
}

std::string table_heading(const std::vector<Column>& columns) {
  std::vector<std::string> headings;
  for (const Column& column : columns) {
    headings.push_back(column.heading);
  }
  return table_row(columns, headings);
}

std::string paragraph(std::string_view text, std::size_t indent) {
  const std::string margin(indent, ' ');
  const std::string line_text = on_one_line(text);
  std::string result;
  std::string line = margin;
  for (std::size_t at = 0; at < line_text.size();) {
    const std::size_t end = end_of_word(line_text, at);
    const std::string word = line_text.substr(at, end - at);
    const bool first = length_of(line) == indent;
    if (!first && length_of(line) + 1 + length_of(word) > line_width) {
      result += line + "\n";
      line = margin + word;
    } else {
      line += (first ? "" : " ") + word;
    }
    at = end + 1;
  }
  return result + line + "\n";
}

}  // namespace ampstair::post::verbs
