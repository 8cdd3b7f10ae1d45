// SPDX-License-Identifier: MIT
#include "checks/sheet_differences.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <utility>

#include "checks/columns.hpp"
namespace ampstair::post::checks {

namespace {

constexpr double round_off = 1e-9;  // part of a value

/// What one record says, by path, in its order.
struct Said {
  std::vector<std::string> order;
  std::map<std::string, SheetValue> values;

  void add(const std::string& path, SheetValue value) {
    if (values.emplace(path, std::move(value)).second) {
      order.push_back(path);
    }
  }
};

std::optional<double> number(double value) {
  return std::isfinite(value) ? std::optional(value) : std::nullopt;
}

bool same_number(const std::optional<double>& a, const std::optional<double>& b) {
  return a.has_value() == b.has_value() &&
         (!a || std::abs(*a - *b) <= round_off * std::max(std::abs(*a), std::abs(*b)));
}

bool same_value(const SheetValue& a, const SheetValue& b) {
  return same_number(a.value, b.value) && same_number(a.low, b.low) &&
         same_number(a.high, b.high) && a.unit == b.unit && (a.value || a.text == b.text);
}

void read_sheet(const Histories& record, Said& said) {
  const Columns columns(record, "sheet");
  const auto path = columns.texts("path");
  const auto text = columns.texts("text");
  const auto unit = columns.texts("unit");
  const auto source = columns.texts("source");
  const auto value = columns.numbers("value");
  const auto low = columns.numbers("low");
  const auto high = columns.numbers("high");
  const auto by_default = columns.numbers("by_default");
  for (std::size_t i = 0; i < path.size(); ++i) {
    said.add(path[i], {text.at(i), number(value.at(i)), number(low.at(i)), number(high.at(i)),
                       unit.at(i), source.at(i), by_default.at(i) != 0.0});
  }
}

std::string first_two(const std::string& path) {
  return path.substr(0, path.find('/', path.find('/') + 1));
}

std::string last_of(const std::string& path) {
  return path.substr(path.rfind('/') + 1);
}

/// Whether the sheet holds a number of the table "values" at a deeper place: below the same path,
/// or at the same piece under the same key.
bool told_by(const Said& sheet, const std::string& path, double value) {
  return std::any_of(sheet.order.begin(), sheet.order.end(), [&](const std::string& other) {
    const bool below = other.rfind(path + "/", 0) == 0;
    const bool alike = first_two(other) == first_two(path) && last_of(other) == last_of(path);
    return (below || alike) && same_number(sheet.values.at(other).value, value);
  });
}

/// Numbers a result rests on that the sheet itself does not hold: of materials, or made from words
/// (a gauge).
void read_values(const Histories& record, Said& said) {
  const Columns columns(record, "values");
  if (!columns.has("path")) {
    return;
  }
  const auto path = columns.texts("path");
  const auto unit = columns.texts("unit");
  const auto source = columns.texts("source");
  const auto value = columns.numbers("value");
  const auto by_default = columns.numbers("by_default");
  const Said of_sheet = said;
  for (std::size_t i = 0; i < path.size(); ++i) {
    if (!told_by(of_sheet, path[i], value.at(i))) {
      const std::string blank = unit.at(i).empty() ? "" : " ";
      said.add(path[i], {fmt::format("{:.6g}{}{}", value.at(i), blank, unit.at(i)),
                         value.at(i),
                         {},
                         {},
                         unit.at(i),
                         source.at(i),
                         by_default.at(i) != 0.0});
    }
  }
}

/// Names and texts of a table that has a column of each.
void read_pairs(const Histories& record, const char* group, const char* name, const char* value,
                const std::string& above, Said& said) {
  if (!record.has(std::string(group) + "/" + value)) {
    return;
  }
  const auto names = record.texts(group, name);
  const auto values = record.texts(group, value);
  for (std::size_t i = 0; i < names.size(); ++i) {
    said.add(above + names[i], {values.at(i), {}, {}, {}, {}, {}, false});
  }
}

void read_order(const Histories& record, Said& said) {
  if (!record.has("pieces/name")) {
    return;
  }
  const auto names = record.texts("pieces", "name");
  said.add("run order", {fmt::format("{}", fmt::join(names, ", ")), {}, {}, {}, {}, {}, false});
}

/// @param complete all records hold their completed sheet
Said read(const Histories& record, bool complete) {
  Said said;
  for (const char* fact : {"sheet_name", "program", "commit"}) {
    said.add(std::string("record/") + fact, {record.attribute(fact), {}, {}, {}, {}, {}, false});
  }
  if (complete) {
    read_sheet(record, said);
  } else {
    read_pairs(record, "pieces", "name", "kind", "kinds/", said);
    read_pairs(record, "pieces", "name", "surroundings", "surroundings/", said);
  }
  read_order(record, said);
  read_values(record, said);
  read_pairs(record, "files", "name", "sha256", "files/", said);
  read_pairs(record, "settings", "name", "value", "settings/", said);
  return said;
}

/// The piece a path speaks of, with where it lies; the first record that has it tells.
struct PieceOfPath {
  std::string name;
  std::string place;
};
std::optional<PieceOfPath> piece_of(const std::string& path,
                                    const std::vector<const Histories*>& records) {
  for (const auto* record : records) {
    if (!record->has("pieces/name")) {
      continue;
    }
    const auto name = record->texts("pieces", "name");
    for (std::size_t i = 0; i < name.size(); ++i) {
      if (path.rfind("run/" + name[i] + "/", 0) == 0) {
        const double begin = record->numbers("pieces", "begin").at(i);
        const double end = record->numbers("pieces", "end").at(i);
        return PieceOfPath{name[i], end > begin
                                        ? fmt::format("{}, {:.2f} to {:.2f} m", name[i], begin, end)
                                        : fmt::format("{}, at {:.2f} m", name[i], begin)};
      }
    }
  }
  return std::nullopt;
}

std::string in_words(std::string path) {
  std::replace(path.begin(), path.end(), '/', ' ');
  return path;
}

void name_place(Difference& difference, const std::vector<const Histories*>& records) {
  const std::string& path = difference.path;
  if (const auto piece = piece_of(path, records)) {
    difference.place = piece->place;
    difference.key = in_words(path.substr(piece->name.size() + 5));
    return;
  }
  const auto slash = path.rfind('/');
  difference.place = slash == std::string::npos ? "sheet" : in_words(path.substr(0, slash));
  difference.key = slash == std::string::npos ? path : path.substr(slash + 1);
}

/// All paths of all records, those of the first in its order, the others' behind.
std::vector<std::string> all_paths(const std::vector<Said>& said) {
  std::vector<std::string> paths;
  std::map<std::string, bool> seen;
  for (const Said& one : said) {
    for (const auto& path : one.order) {
      if (seen.emplace(path, true).second) {
        paths.push_back(path);
      }
    }
  }
  return paths;
}

std::optional<Difference> difference_at(const std::string& path, const std::vector<Said>& said) {
  Difference difference;
  difference.path = path;
  bool values_differ = false;
  bool sources_differ = false;
  for (const Said& one : said) {
    const auto found = one.values.find(path);
    difference.values.push_back(found == one.values.end() ? std::nullopt
                                                          : std::optional(found->second));
    const auto& first = difference.values.front();
    const auto& last = difference.values.back();
    values_differ = values_differ || first.has_value() != last.has_value() ||
                    (first && !same_value(*first, *last));
    sources_differ =
        sources_differ ||
        (first && last && (first->source != last->source || first->by_default != last->by_default));
  }
  difference.of_source = !values_differ;
  return values_differ || sources_differ ? std::optional(difference) : std::nullopt;
}

/// What belongs to one place together, places in the order in which they come up; last who marched
/// it and how.
void gather_places(std::vector<Difference>& differences) {
  std::map<std::string, std::size_t> rank;
  for (const auto& difference : differences) {
    const bool last = difference.place == "settings" || difference.place == "record";
    rank.emplace(difference.place, rank.size() + (last ? differences.size() : 0));
  }
  std::stable_sort(differences.begin(), differences.end(), [&](const auto& a, const auto& b) {
    return rank.at(a.place) < rank.at(b.place);
  });
}

}  // namespace

SheetDifferences sheet_differences(const std::vector<const Histories*>& records) {
  SheetDifferences result;
  result.same_text = std::all_of(records.begin(), records.end(), [&](const auto* record) {
    return record->sheet_text() == records.front()->sheet_text();
  });
  result.complete = std::all_of(records.begin(), records.end(),
                                [](const auto* record) { return record->has("sheet/path"); });
  std::vector<Said> said;
  for (const auto* record : records) {
    said.push_back(read(*record, result.complete));
  }
  for (const auto& path : all_paths(said)) {
    if (auto difference = difference_at(path, said)) {
      name_place(*difference, records);
      result.found.push_back(std::move(*difference));
    }
  }
  gather_places(result.found);
  return result;
}

}  // namespace ampstair::post::checks
