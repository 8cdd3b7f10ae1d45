// SPDX-License-Identifier: MIT
#include "sheet/read_values.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "quantities/parse.hpp"
#include "sheet/nearest.hpp"
#include "sheet/wording.hpp"

namespace ampstair::sheet {

namespace {

using diagnostics::ProblemList;
using quantities::format;

bool inside(double si, const Bounds& bounds) {
  const bool low =
      !bounds.least || si > *bounds.least || (si == *bounds.least && !bounds.least_excluded);
  return low && (!bounds.most || si <= *bounds.most);
}

std::string outside(const NumberRule& rule) {
  const Bounds& bounds = rule.bounds;
  if (bounds.least && bounds.most) {
    return fmt::format("is outside {}{} to {}", format(*bounds.least, rule.dimension),
                       bounds.least_excluded ? " (itself excluded)" : "",
                       format(*bounds.most, rule.dimension));
  }
  return "must be " + describe_bounds(bounds, rule.dimension);
}

std::string bounds_remedy(double si, const std::string& text, const NumberRule& rule) {
  const bool percent = rule.dimension == Dimension::ratio && si > 1.0;
  if (percent && inside(si / 100.0, rule.bounds)) {
    return fmt::format("did you mean {} ({:g} %)?", format(si / 100.0, rule.dimension), si);
  }
  const bool temperature = rule.dimension == Dimension::temperature;
  if (!temperature && si < 0.0 && inside(-si, rule.bounds) && text.rfind('-', 0) == 0) {
    return fmt::format("did you mean {}?", text.substr(1));
  }
  return "write a value that is " + describe_bounds(rule.bounds, rule.dimension);
}

/// One plain text as a number in SI; nothing where it is at fault, which is told.
std::optional<double> read_plain(const Node& node, const NumberRule& rule, const Subject& subject,
                                 ProblemList& problems) {
  if (node.spoiled) {
    return std::nullopt;
  }
  const auto parsed = quantities::parse_quantity(node.text, rule.dimension, subject.quoted());
  if (parsed.fault) {
    problems.error(parsed.fault->code, node.place, parsed.fault->what, parsed.fault->remedy);
    return std::nullopt;
  }
  if (!inside(parsed.si, rule.bounds)) {
    problems.error(
        "E130", node.place,
        fmt::format("{} {}{} {}.", subject.key, excerpt(node.text), subject.of, outside(rule)),
        bounds_remedy(parsed.si, node.text, rule));
    return std::nullopt;
  }
  return parsed.si;
}

std::string unit_of(const std::string& text) {
  const auto begin = text.find_last_of(' ');
  return begin == std::string::npos ? text : text.substr(begin + 1);
}

/// "3/64 in = 1.191 mm" where the author's unit differs from the others' in the band.
std::string both(const std::string& text, double si, const std::string& beside,
                 Dimension dimension) {
  const std::string plain = excerpt(text);
  return unit_of(text) == unit_of(beside) ? plain
                                          : fmt::format("{} = {}", plain, format(si, dimension));
}

void check_band(Number& number, Dimension dimension, const Place& high_place,
                ProblemList& problems) {
  const double low = *number.low;
  const double high = *number.high;
  const auto best_text = both(number.text, number.best, number.low_text, dimension);
  if (low > high || low > number.best) {
    const bool above_best = low > number.best;
    std::string what = fmt::format("low ({}) is above ", excerpt(number.low_text));
    what += above_best ? fmt::format("best ({})", best_text) : "";
    what += above_best && low > high ? " and above " : "";
    what += low > high ? fmt::format("high ({})", excerpt(number.high_text)) : "";
    problems.error("E131", number.band_place, what + ".",
                   low > high ? "swap low and high" : "write low at or below best");
  } else if (number.best > high) {
    problems.error(
        "E131", high_place,
        fmt::format("high ({}) is below best ({}).", excerpt(number.high_text), best_text),
        "write high at or above best");
  } else if (low == high) {
    problems.warning("W132", number.band_place,
                     fmt::format("low and high are equal ({}), so the band says that nothing is "
                                 "unknown.",
                                 excerpt(number.low_text)),
                     "widen the band, or leave low and high out");
  }
}

std::string text_of(const Node* node) {
  return node != nullptr && node->is_scalar() && !node->spoiled ? node->text : std::string();
}

void read_shape(const Node& node, const Subject& subject, Number& number, ProblemList& problems) {
  if (const Node* shape = node.find("shape"); shape != nullptr && !shape->spoiled) {
    const std::vector<Option> shapes{{"uniform", {}}, {"normal", {}}};
    Text word;
    read_text_value(*shape, shapes, {"shape", " of '" + subject.key + "'", subject.path}, word,
                    problems);
    number.uniform = word.value == "uniform";
  }
}

/// The value under best, low or high; nothing where absent or at fault. `fine` turns false there.
std::optional<double> read_part(const Node& node, const std::string& part, const NumberRule& rule,
                                const Subject& subject, ProblemList& problems, bool& fine) {
  const Node* value = node.find(part);
  if (value == nullptr) {
    return std::nullopt;
  }
  std::optional<double> si;
  if (value->is_scalar()) {
    si = read_plain(*value, rule, subject, problems);
  } else if (!value->spoiled) {
    tell_wrong_shape(*value, {part, " of '" + subject.key + "'", subject.path}, "a plain value",
                     part + ": " + example_of({{}, {}, {}, NumberForm{{}, rule.dimension, {}}, {}}),
                     problems);
  }
  fine = fine && si.has_value();
  return si;
}

void read_band(const Node& node, const NumberRule& rule, const Subject& subject, Number& number,
               ProblemList& problems) {
  tell_unknown_keys(node, {"best", "low", "high", "from", "shape"}, "in " + subject.path, problems);
  Number read;
  bool fine = true;
  const auto best = read_part(node, "best", rule, subject, problems, fine);
  read.low = read_part(node, "low", rule, subject, problems, fine);
  read.high = read_part(node, "high", rule, subject, problems, fine);
  read.from = text_of(node.find("from"));
  read_shape(node, subject, read, problems);
  if (node.find("best") == nullptr) {
    problems.error(
        "E122", node.place, fmt::format("{} has no 'best' value.", subject.quoted()),
        "add  best: " + example_of({{}, {}, {}, NumberForm{{}, rule.dimension, {}}, {}}));
    return;
  }
  const Node* low = node.find("low");
  const Node* high = node.find("high");
  if ((low == nullptr) != (high == nullptr)) {
    problems.error("E122", (low != nullptr ? low : high)->place,
                   fmt::format("{} has '{}' but no '{}'; a band needs both ends.", subject.quoted(),
                               low != nullptr ? "low" : "high", low != nullptr ? "high" : "low"),
                   "add the other end, or leave both out");
    return;
  }
  if (!fine) {
    return;
  }
  read.best = *best;
  read.text = text_of(node.find("best"));
  read.low_text = text_of(low);
  read.high_text = text_of(high);
  read.place = node.find("best")->place;
  read.origin = Origin::given;
  if (low != nullptr) {
    read.band_place = low->place;
    check_band(read, rule.dimension, high->place, problems);
  }
  number = std::move(read);
}

Table::Point read_point(const Node& node, const NumberRule& rule, const Subject& subject,
                        ProblemList& problems) {
  tell_unknown_keys(node, {"at", "value"}, "in " + subject.path, problems);
  Table::Point point;
  Number at;
  for (const auto* key : {"at", "value"}) {
    const Node* value = node.find(key);
    if (value == nullptr) {
      problems.error("E122", node.place,
                     fmt::format("a point of {} has no '{}'.", subject.quoted(), key),
                     "write  {at: 20 degC, value: ...}");
      return {};
    }
    const bool is_at = key == std::string("at");
    const Subject part{is_at ? "at" : subject.key,
                       is_at ? " of a point of '" + subject.key + "'" : subject.of,
                       subject.path + "." + key};
    read_number(*value, is_at ? NumberRule{Dimension::temperature, {}} : rule, part,
                is_at ? at : point.value, problems);
  }
  if (!at.present()) {
    point.value.origin = Origin::missing;
  }
  point.temperature = at.best;
  return point;
}

void check_ascending(const Table::Point& before, const Table::Point& point, const Place& place,
                     const Subject& subject, ProblemList& problems) {
  if (point.temperature < before.temperature) {
    problems.error("E133", place,
                   fmt::format("the points of {} must rise in temperature ({} comes after {}).",
                               subject.quoted(), format(point.temperature, Dimension::temperature),
                               format(before.temperature, Dimension::temperature)),
                   "put the points in order; the same temperature twice is a jump");
  }
}

}  // namespace

void read_number(const Node& node, const NumberRule& rule, const Subject& subject, Number& number,
                 ProblemList& problems) {
  if (node.spoiled) {
    return;
  }
  if (node.kind == Node::Kind::mapping) {
    read_band(node, rule, subject, number, problems);
    return;
  }
  if (!node.is_scalar()) {
    tell_wrong_shape(
        node, subject, "a value or {best:, low:, high:, from:}",
        subject.key + ": " + example_of({{}, {}, {}, NumberForm{{}, rule.dimension, {}}, {}}),
        problems);
    return;
  }
  if (const auto si = read_plain(node, rule, subject, problems)) {
    number = {};
    number.best = *si;
    number.text = node.text;
    number.place = node.place;
    number.origin = Origin::given;
  }
}

void read_table(const Node& node, const NumberRule& rule, const Subject& subject, Table& table,
                ProblemList& problems) {
  Table read;
  read.place = node.place;
  bool fine = true;
  if (node.kind != Node::Kind::list) {
    Table::Point point;
    read_number(node, rule, subject, point.value, problems);
    fine = point.value.present();
    read.points.push_back(std::move(point));
  }
  for (const Node& item : node.items) {
    if (item.kind != Node::Kind::mapping) {
      tell_wrong_shape(item, {"a point", " of '" + subject.key + "'", subject.path},
                       "{at: temperature, value: ...}", "{at: 20 degC, value: ...}", problems);
      return;
    }
    auto point = read_point(item, rule, subject, problems);
    fine = fine && point.value.present();
    if (fine && !read.points.empty()) {
      check_ascending(read.points.back(), point, item.place, subject, problems);
    }
    read.points.push_back(std::move(point));
  }
  if (read.points.empty()) {
    problems.error("E126", node.place, fmt::format("{} is an empty list.", subject.quoted()),
                   "write a value, or points  [{at: 20 degC, value: ...}, ...]");
  } else if (fine) {
    read.origin = Origin::given;
    table = std::move(read);
  }
}

void read_text_value(const Node& node, const std::vector<Option>& options, const Subject& subject,
                     Text& text, ProblemList& problems) {
  if (node.spoiled) {
    return;
  }
  std::vector<std::string> words;
  for (const auto& option : options) {
    words.push_back(option.word);
  }
  if (!node.is_scalar() || node.text.empty()) {
    tell_wrong_shape(node, subject, words.empty() ? "a text" : "one of " + enumerated(words),
                     subject.key + ": " + (words.empty() ? "..." : words.front()), problems);
    return;
  }
  if (!words.empty() && std::find(words.begin(), words.end(), node.text) == words.end()) {
    problems.error("E123", node.place,
                   fmt::format("{} cannot be '{}'.", subject.quoted(), excerpt(node.text)),
                   suggest_word(node.text, words));
    return;
  }
  text = {node.text, node.place, Origin::given};
}

void read_truth(const Node& node, const Subject& subject, bool& truth, ProblemList& problems) {
  Text word;
  read_text_value(node, {{"true", {}}, {"false", {}}}, subject, word, problems);
  if (word.present()) {
    truth = word.value == "true";
  }
}

void read_texts(const Node& node, const Subject& subject, std::vector<Text>& texts,
                ProblemList& problems) {
  if (node.spoiled) {
    return;
  }
  if (node.kind != Node::Kind::list) {
    const std::string shown = node.is_scalar() ? excerpt(node.text) : "...";
    tell_wrong_shape(node, subject, "a list of texts", fmt::format("{}: [{}]", subject.key, shown),
                     problems);
    return;
  }
  std::vector<Text> read;
  for (const Node& item : node.items) {
    Text text;
    read_text_value(item, {}, {subject.key, subject.of, subject.path}, text, problems);
    if (text.present()) {
      read.push_back(std::move(text));
    }
  }
  texts = std::move(read);
}

std::string suggest_word(const std::string& word, const std::vector<std::string>& words) {
  const auto near = nearest_words(excerpt(word), words);
  const std::string all = "one of " + enumerated(words);
  return near.empty() ? "write " + all
                      : fmt::format("did you mean {}? It can be {}", near.front(), all);
}

void tell_unknown_keys(const Node& node, const std::vector<std::string>& known,
                       const std::string& where, ProblemList& problems) {
  constexpr int most = 20;  // a sheet with more is another kind of file
  int told = 0;
  for (const Entry& entry : node.entries) {
    if (std::find(known.begin(), known.end(), entry.key) != known.end()) {
      continue;
    }
    if (++told > most) {
      problems.error("E121", entry.key_place, fmt::format("more unknown keys follow {}.", where),
                     "check that this is the file you mean");
      return;
    }
    const auto near = nearest_words(excerpt(entry.key), known);
    const std::string hint = near.empty() ? fmt::format("keys here: {}.", enumerated(known, ", "))
                                          : fmt::format("did you mean {}?", near.front());
    problems.error("E121", entry.key_place,
                   fmt::format("unknown key '{}' {}.", excerpt(entry.key), where),
                   hint + " Unknown keys are errors, never ignored");
  }
}

void tell_wrong_shape(const Node& node, const Subject& subject, const std::string& wanted,
                      const std::string& remedy, ProblemList& problems) {
  std::string read = "an empty value";
  if (node.kind == Node::Kind::mapping) {
    read = "a mapping";
  } else if (node.kind == Node::Kind::list) {
    read = "a list";
  } else if (node.is_scalar() && !node.text.empty()) {
    read = "'" + excerpt(node.text) + "'";
  }
  problems.error("E124", node.place,
                 fmt::format("{} needs {} (read {}).", subject.quoted(), wanted, read),
                 "write  " + remedy);
}

}  // namespace ampstair::sheet
