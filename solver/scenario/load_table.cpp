// SPDX-License-Identifier: MIT
#include "scenario/load_table.hpp"

#include <fmt/format.h>

#include <utility>

#include "scenario/column_file.hpp"

namespace ampstair::scenario {

using quantities::Dimension;

std::optional<LoadTable> read_load_table(const std::filesystem::path& path,
                                         const diagnostics::Place& named,
                                         diagnostics::ProblemList& problems) {
  auto file = read_columns(path,
                           {{"time", Dimension::duration, {0.0, 1e9}, true},
                            {"current", Dimension::current, {0.0, 1e5}, false},
                            {"voltage", Dimension::voltage, {0.0, 1e4}, false}},
                           named, problems);
  if (!file) {
    return std::nullopt;
  }
  const auto& amperes = file->column[1];
  const auto& volts = file->column[2];
  const diagnostics::Place begin{path.string(), 1, 1};
  if (amperes.empty() == volts.empty()) {
    problems.error(
        "E191", begin,
        fmt::format("a load has a column 'current' or a column 'voltage'; this one has {}.",
                    amperes.empty() ? "neither" : "both"),
        "write a header like  time [min], current [A]  or  time [s], voltage [V]");
    return std::nullopt;
  }
  if (file->column[0].size() < 2) {
    problems.error("E193", begin, "a load needs at least two rows (read 1).",
                   "the last row tells when the load ends");
    return std::nullopt;
  }
  return LoadTable{!volts.empty(), file->column[0], volts.empty() ? amperes : volts,
                   std::move(file->text)};
}

std::vector<Leg> legs_of(const LoadTable& table, bool linear, double duration) {
  std::vector<Leg> legs;
  const std::size_t rows = table.time.size();
  for (std::size_t i = 0; i < rows && table.time[i] < duration; ++i) {
    Leg leg{table.time[i], table.level[i], 0.0};
    if (linear && i + 1 < rows) {
      leg.slope = (table.level[i + 1] - table.level[i]) / (table.time[i + 1] - table.time[i]);
    }
    if (!legs.empty() && legs.back().slope == leg.slope &&
        legs.back().level_at(leg.from) == leg.level) {
      continue;
    }
    legs.push_back(leg);
  }
  return legs;
}

}  // namespace ampstair::scenario
