// SPDX-License-Identifier: MIT
#include "scenario/column_file.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <charconv>
#include <fstream>
#include <iterator>
#include <string_view>
#include <utility>

#include "quantities/parse.hpp"
#include "sheet/nearest.hpp"

namespace ampstair::scenario {

namespace {

using diagnostics::Place;
using diagnostics::ProblemList;

constexpr std::size_t faults_told = 20;  // of one file

struct Cell {
  std::string_view text;  // without blanks around it
  int column = 1;
};

std::vector<Cell> cells_of(std::string_view line) {
  std::vector<Cell> cells;
  std::size_t begin = 0;
  while (begin <= line.size()) {
    const std::size_t comma = std::min(line.find(',', begin), line.size());
    std::size_t first = begin;
    std::size_t last = comma;
    const auto blank = [&](std::size_t i) { return line[i] == ' ' || line[i] == '\t'; };
    while (first < last && blank(first)) {
      ++first;
    }
    while (last > first && blank(last - 1)) {
      --last;
    }
    cells.push_back({line.substr(first, last - first), static_cast<int>(first) + 1});
    begin = comma + 1;
  }
  return cells;
}

/// Turns the numbers of a column into SI.
struct Unit {
  std::size_t wanted = 0;  // which column that is
  double at_zero = 0.0, per_one = 1.0;
};

class Reader {
 public:
  Reader(const std::string& file, const std::vector<ColumnWanted>& wanted, ProblemList& problems)
      : file_(file), wanted_(wanted), problems_(problems) {}

  std::optional<ColumnFile> read(std::string text) {
    found_.column.resize(wanted_.size());
    std::string_view rest = text;
    if (rest.substr(0, 3) == "\xEF\xBB\xBF") {
      rest.remove_prefix(3);
    }
    while (!rest.empty() && faults_ < faults_told) {
      ++line_;
      const std::size_t end = std::min(rest.find('\n'), rest.size());
      auto line = rest.substr(0, end);
      rest.remove_prefix(std::min(end + 1, rest.size()));
      if (!line.empty() && line.back() == '\r') {
        line.remove_suffix(1);
      }
      if (line.find_first_not_of(" \t") != std::string_view::npos && line.front() != '#') {
        units_.empty() ? read_header(line) : read_row(line);
      }
    }
    if (faults_ == 0 && units_.empty()) {
      fault("E191", 1, "the file has no header.", example());
    } else if (faults_ == 0 && found_.column[0].empty()) {
      fault("E193", 1, "the file has no rows.", "write at least one under the header");
    }
    found_.text = std::move(text);
    return faults_ == 0 ? std::optional(std::move(found_)) : std::nullopt;
  }

 private:
  void fault(const std::string& code, int column, std::string what, std::string remedy) {
    ++faults_;
    problems_.error(code, Place{file_, line_, column}, std::move(what), std::move(remedy));
  }

  [[nodiscard]] std::vector<std::string> names() const {
    std::vector<std::string> all;
    for (const auto& column : wanted_) {
      all.push_back(column.name);
    }
    return all;
  }

  [[nodiscard]] std::string example() const {
    std::vector<std::string> all;
    for (const auto& column : wanted_) {
      const auto unit = quantities::si_unit(column.dimension);
      all.push_back(fmt::format("{} [{}]", column.name, unit == "K" ? "degC" : unit));
    }
    return fmt::format("write a header like  {}", fmt::join(all, ", "));
  }

  void read_header(std::string_view line) {
    for (const Cell& cell : cells_of(line)) {
      read_heading(cell);
    }
    for (std::size_t w = 0; w < wanted_.size(); ++w) {
      const bool there = std::any_of(units_.begin(), units_.end(),
                                     [&](const Unit& unit) { return unit.wanted == w; });
      if (wanted_[w].required && !there && faults_ == 0) {
        fault("E191", 1, fmt::format("the column '{}' is missing.", wanted_[w].name), example());
      }
    }
    if (faults_ > 0) {
      faults_ = faults_told;  // the rows would all be told, too
    }
  }

  void read_heading(const Cell& cell) {
    const auto open = cell.text.find('[');
    const bool has_unit = open != std::string_view::npos && cell.text.back() == ']';
    std::string name(cell.text.substr(0, open));
    while (!name.empty() && name.back() == ' ') {
      name.pop_back();
    }
    const auto all = names();
    const auto found = std::find(all.begin(), all.end(), name);
    if (found == all.end()) {
      const auto near = sheet::nearest_words(name, all);
      fault("E191", cell.column, fmt::format("no column is called '{}'.", name),
            near.empty() ? example() : "nearest: " + near.front());
      units_.push_back({wanted_.size()});
      return;
    }
    Unit unit{static_cast<std::size_t>(found - all.begin())};
    if (!has_unit) {
      fault("E191", cell.column, fmt::format("the column '{}' has no unit.", name), example());
    } else {
      read_unit(cell, cell.text.substr(open + 1, cell.text.size() - open - 2), unit);
    }
    units_.push_back(unit);
  }

  void read_unit(const Cell& cell, std::string_view text, Unit& unit) {
    const auto si = [&](const char* number) {
      return quantities::parse_quantity(fmt::format("{} {}", number, text),
                                        wanted_[unit.wanted].dimension,
                                        fmt::format("the heading '{}'", cell.text));
    };
    const auto zero = si("0");
    const auto one = si("1");
    if (zero.fault || one.fault) {
      const auto& why = zero.fault ? *zero.fault : *one.fault;
      fault(why.code, cell.column, why.what, why.remedy);
      return;
    }
    unit.at_zero = zero.si;
    unit.per_one = one.si - zero.si;
  }

  void read_row(std::string_view line) {
    const auto cells = cells_of(line);
    if (cells.size() != units_.size()) {
      fault("E192", 1,
            fmt::format("the row has {} cells, the header {}.", cells.size(), units_.size()),
            "write as many numbers as there are columns, with decimal points");
      return;
    }
    for (std::size_t i = 0; i < cells.size(); ++i) {
      read_cell(cells[i], units_[i]);
    }
  }

  void read_cell(const Cell& cell, const Unit& unit) {
    double value = 0.0;
    const char* end = cell.text.data() + cell.text.size();
    const auto [stop, error] = std::from_chars(cell.text.data(), end, value);
    if (error != std::errc() || stop != end || !(value > -1e15 && value < 1e15)) {
      fault("E192", cell.column, fmt::format("'{}' is not a number.", cell.text),
            "write numbers alone, with a decimal point; the header tells their units");
      return;
    }
    const double si = unit.at_zero + value * unit.per_one;
    const auto& wanted = wanted_[unit.wanted];
    auto& column = found_.column[unit.wanted];
    if ((wanted.bounds.least && si < *wanted.bounds.least) ||
        (wanted.bounds.most && si > *wanted.bounds.most)) {
      fault("E130", cell.column,
            fmt::format("{} {} is outside {} .. {}.", wanted.name, cell.text,
                        quantities::format(*wanted.bounds.least, wanted.dimension),
                        quantities::format(*wanted.bounds.most, wanted.dimension)),
            "check the number and the unit in the header");
    }
    if (unit.wanted == 0 && column.empty() ? si != 0.0 : unit.wanted == 0 && si <= column.back()) {
      fault("E193", cell.column,
            column.empty() ? fmt::format("the first row is not at 0 (read {}).", cell.text)
                           : fmt::format("{} does not come after the row before.", cell.text),
            "order the rows by time, from 0 on, each later than the last");
    }
    column.push_back(si);
  }

  const std::string& file_;
  const std::vector<ColumnWanted>& wanted_;
  ProblemList& problems_;
  ColumnFile found_;
  std::vector<Unit> units_;  // of the file's columns
  int line_ = 0;
  std::size_t faults_ = 0;
};

}  // namespace

std::optional<ColumnFile> read_columns(const std::filesystem::path& path,
                                       const std::vector<ColumnWanted>& wanted, const Place& named,
                                       ProblemList& problems) {
  std::ifstream in(path, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(in), {}};
  if (!in.is_open() || in.bad()) {
    problems.error("E190", named, fmt::format("the file '{}' cannot be read.", path.string()),
                   "give its name as seen from the run sheet's folder");
    return std::nullopt;
  }
  const std::string file = path.string();
  return Reader(file, wanted, problems).read(std::move(text));
}

}  // namespace ampstair::scenario
