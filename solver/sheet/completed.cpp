// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cstddef>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "sheet/declaration.hpp"

namespace ampstair::sheet {

namespace {

using Lines = std::vector<std::string>;

/// Plain where every YAML reader takes it for the same text, else in double quotes.
std::string quoted(const std::string& text) {
  const auto letter = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
  };
  bool plain = !text.empty() && (letter(text.front()) || text.front() == '-') &&
               text.back() != ' ' && text != "null" && text != "-";
  for (const char c : text) {
    plain = plain && (letter(c) || std::string_view(" ._/+-%()^*").find(c) != std::string::npos);
  }
  if (plain && text.rfind("- ", 0) != 0 && text.rfind("--", 0) != 0) {
    return text;
  }
  std::string result = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      result += '\\';
      result += c;
    } else if (c == '\n') {
      result += "\\n";
    } else if (c == '\t') {
      result += "\\t";
    } else if (c == '\r') {
      result += "\\r";
    } else {
      result += c;
    }
  }
  return result + '"';
}

/// The text as written, or where a program made the value, every digit of it.
std::string written(const std::string& text, double si, Dimension dimension) {
  if (!text.empty()) {
    return quoted(text);
  }
  const auto unit = quantities::si_unit(dimension);
  return unit.empty() ? fmt::format("{}", si) : fmt::format("{} {}", si, unit);
}

std::string number_text(const Number& number, Dimension dimension) {
  const std::string best = written(number.text, number.best, dimension);
  const bool source = number.given() && !number.from.empty();
  if (!number.low && !number.high && !source) {
    return best;
  }
  std::string text = "{best: " + best;
  if (number.low) {
    text += ", low: " + written(number.low_text, *number.low, dimension);
  }
  if (number.high) {
    text += ", high: " + written(number.high_text, *number.high, dimension);
  }
  text += source ? ", from: " + quoted(number.from) : "";
  text += number.uniform ? ", shape: uniform" : "";
  return text + "}";
}

std::string mark(Origin origin, const std::string& source) {
  if (origin != Origin::by_default) {
    return {};
  }
  std::string line = source;
  for (char& c : line) {
    c = c == '\n' || c == '\r' ? ' ' : c;
  }
  return "  # default" + (line.empty() ? std::string() : " (" + line + ")");
}

void append_below(Lines& lines, const std::string& key, const Lines& below,
                  const std::string& if_none) {
  if (below.empty()) {
    lines.push_back(quoted(key) + ": " + if_none);
    return;
  }
  lines.push_back(quoted(key) + ":");
  for (const auto& line : below) {
    lines.push_back("  " + line);
  }
}

void append_item(Lines& lines, const Lines& item) {
  if (item.empty()) {
    lines.emplace_back("- {}");
  }
  for (std::size_t i = 0; i < item.size(); ++i) {
    lines.push_back((i == 0 ? "- " : "  ") + item[i]);
  }
}

Lines lines_of(const Node& node);

void append_node(Lines& lines, const std::string& key, const Node& node) {
  if (node.is_scalar()) {
    lines.push_back(quoted(key) + ": " + quoted(node.text));
  } else {
    append_below(lines, key, lines_of(node), node.kind == Node::Kind::list ? "[]" : "{}");
  }
}

/// Block style of a mapping's or list's content.
Lines lines_of(const Node& node) {
  Lines lines;
  for (const Entry& entry : node.entries) {
    append_node(lines, entry.key, entry.value);
  }
  for (const Node& item : node.items) {
    append_item(lines, item.is_scalar() ? Lines{quoted(item.text)} : lines_of(item));
  }
  return lines;
}

Lines lines_of(const Declaration& keys, void* object);

/// Appends one key's lines; one overload a form. What is missing is left out.
struct KeyLines {
  const Key& key;
  void* object;
  Lines& lines;

  void plain(const std::string& value, Origin origin, const std::string& source) const {
    lines.push_back(quoted(key.name) + ": " + value + mark(origin, source));
  }

  void operator()(const NumberForm& form) const {
    const Number& number = form.member(object);
    if (number.present()) {
      plain(number_text(number, form.dimension), number.origin, number.from);
    }
  }
  void operator()(const TextForm& form) const {
    const Text& text = form.member(object);
    if (text.present()) {
      plain(quoted(text.value), text.origin, key.need.default_source);
    }
  }
  void operator()(const TruthForm& form) const {
    const bool truth = form.member(object);
    const bool usual = truth == form.default_value;
    plain(truth ? "true" : "false", usual ? Origin::by_default : Origin::given, {});
  }
  void operator()(const TableForm& form) const {
    const Table& table = form.member(object);
    if (!table.present() || table.points.empty()) {
      return;
    }
    const Number& first = table.points.front().value;
    if (table.points.size() == 1 && table.points.front().temperature == 0.0) {
      plain(number_text(first, form.dimension), table.origin, first.from);
      return;
    }
    Lines points;
    for (const auto& point : table.points) {
      points.push_back(fmt::format("- {{at: {} K, value: {}}}", point.temperature,
                                   number_text(point.value, form.dimension)));
    }
    append_below(lines, key.name, points, "[]");
  }
  void operator()(const TextsForm& form) const {
    const auto& texts = form.member(object);
    if (texts.empty()) {
      return;
    }
    std::string list;
    for (const auto& text : texts) {
      list += (list.empty() ? "" : ", ") + quoted(text.value);
    }
    plain("[" + list + "]", texts.front().origin, key.need.default_source);
  }
  void operator()(const NodesForm& form) const {
    Lines below;
    for (const Node& node : form.member(object)) {
      append_item(below, lines_of(node));
    }
    if (!below.empty()) {
      append_below(lines, key.name, below, "[]");
    }
  }
  void operator()(const MappingForm& form) const {
    if (void* held = form.get(object); held != nullptr) {
      append_below(lines, key.name, lines_of(*form.keys, held), "{}");
    }
  }
  void operator()(const TextOrMappingForm& form) const {
    const Text& text = form.text(object);
    if (text.present()) {
      plain(quoted(text.value), text.origin, key.need.default_source);
    } else {
      (*this)(form.mapping);
    }
  }
  void operator()(const ListForm& form) const {
    Lines below;
    for (std::size_t i = 0; i < form.size(object); ++i) {
      append_item(below, lines_of(*form.keys, form.at(object, i)));
    }
    if (!below.empty()) {
      append_below(lines, key.name, below, "[]");
    }
  }
  void operator()(const AlternativesForm& form) const {
    Lines below;
    for (std::size_t i = 0; i < form.size(object); ++i) {
      const auto [which, item] = form.at(object, i);
      const auto& choice = form.choices->choices[which];
      Lines held = lines_of(*choice.keys, item);
      held.insert(held.begin(), form.choices->discriminator + ": " + quoted(choice.word));
      append_item(below, held);
    }
    if (!below.empty()) {
      append_below(lines, key.name, below, "[]");
    }
  }
};

Lines lines_of(const Declaration& keys, void* object) {
  Lines lines;
  for (const Key& key : keys.keys) {
    std::visit(KeyLines{key, object, lines}, key.form);
  }
  return lines;
}

}  // namespace

void write_completed(std::ostream& out, const Declaration& keys, void* object) {
  for (const auto& line : lines_of(keys, object)) {
    out << line << '\n';
  }
}

}  // namespace ampstair::sheet
