// SPDX-License-Identifier: MIT
#include "report/html.hpp"

#include <fmt/format.h>

#include <array>
#include <cstddef>
#include <nlohmann/json.hpp>
#include <utility>

#include "report/origins.hpp"

namespace ampstair::post::report {

namespace {

// UTF-8 of the characters that turn the direction of writing (Unicode Standard Annex 9): U+061C,
// U+200E, U+200F, U+202A to U+202E, U+2066 to U+2069.
constexpr std::array<std::string_view, 12> turns = {
    "\xD8\x9C",     "\xE2\x80\x8E", "\xE2\x80\x8F", "\xE2\x80\xAA", "\xE2\x80\xAB", "\xE2\x80\xAC",
    "\xE2\x80\xAD", "\xE2\x80\xAE", "\xE2\x81\xA6", "\xE2\x81\xA7", "\xE2\x81\xA8", "\xE2\x81\xA9"};

/// Length of a turn that begins here, else 0.
std::size_t turn_at(std::string_view rest) {
  for (const auto turn : turns) {
    if (rest.substr(0, turn.size()) == turn) {
      return turn.size();
    }
  }
  return 0;
}

bool is_control(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return (byte < 0x20 && c != '\n' && c != '\t') || byte == 0x7F;
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    if (const std::size_t turn = turn_at(text.substr(i)); turn > 0) {
      i += turn;
      continue;
    }
    const char c = text[i++];
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += is_control(c) ? std::string("\xEF\xBF\xBD") : std::string(1, c);
    }
  }
  return out;
}

std::string json_in_page(const nlohmann::json& json) {
  const std::string plain = json.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
  std::string out;
  out.reserve(plain.size());
  for (const char c : plain) {
    if (c == '<') {
      out += "\\u003c";
    } else {
      out += c;
    }
  }
  return out;
}

Table::Table(std::string id, std::string caption, std::vector<Column> columns)
    : id_(std::move(id)), caption_(std::move(caption)), columns_(std::move(columns)) {}

void Table::add(const std::vector<std::string>& cells) {
  rows_ += "<tr>";
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const bool right = columns_[i].align == Align::right;
    rows_ += fmt::format("<td{}>{}</td>", right ? " class=\"number\"" : "", cells[i]);
  }
  rows_ += "</tr>\n";
}

void Table::add_remark(const std::string& markup) {
  rows_ += fmt::format("<tr class=\"remark\"><td colspan=\"{}\">{}</td></tr>\n", columns_.size(),
                       markup);
}

std::string Table::markup(const std::string& plain) const {
  std::string heads;
  for (const Column& column : columns_) {
    heads += fmt::format("<th scope=\"col\"{}>{}</th>",
                         column.align == Align::right ? " class=\"number\"" : "",
                         escaped(column.heading));
  }
  std::string text = fmt::format(
      "<div class=\"wide\"><table id=\"{}\"><caption>{}</caption>\n<thead><tr>{}</tr></thead>\n"
      "<tbody>\n{}</tbody></table></div>\n",
      id_, escaped(caption_), heads, rows_);
  if (!plain.empty()) {
    text += fmt::format("<p class=\"plain\">{}</p>\n", plain);
  }
  return text + origin_line(id_);
}

}  // namespace ampstair::post::report
