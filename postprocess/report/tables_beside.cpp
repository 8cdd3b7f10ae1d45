// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cstddef>

#include "checks/amounts.hpp"
#include "checks/beside.hpp"
#include "checks/sheet_differences.hpp"
#include "report/html.hpp"
#include "report/tables.hpp"
#include "report/words.hpp"

namespace ampstair::post::report {

namespace {

using Align = Table::Align;

checks::Beside beside_of(const std::vector<Source>& sources) {
  std::vector<const checks::Findings*> all;
  for (const auto& source : sources) {
    all.push_back(&source.findings);
  }
  return checks::beside(all);
}

std::string arrangement(const Source& source) {
  const auto& run = source.findings.heading;
  return run.arrangement.empty() ? run.title : run.arrangement;
}

/// Records whose arrangements have the same name go by their sheets and files as well.
std::vector<std::string> names(const std::vector<Source>& sources) {
  std::vector<std::string> all;
  for (const auto& source : sources) {
    const bool shared = std::count_if(sources.begin(), sources.end(), [&](const auto& other) {
                          return arrangement(other) == arrangement(source);
                        }) > 1;
    all.push_back(arrangement(source) + (shared ? fmt::format(" ({})", source.file) : ""));
  }
  return all;
}

// ---- what differs

std::string value_cell(const std::optional<checks::SheetValue>& value) {
  if (!value) {
    return dash;
  }
  return escaped(value->text) +
         (value->by_default ? " <span class=\"other\">(default)</span>" : "");
}

std::string source_cell(const std::optional<checks::SheetValue>& value) {
  return !value                  ? std::string(dash)
         : value->source.empty() ? std::string("no source given")
                                 : escaped(value->source);
}

// ---- what it did

std::string volts_cell(const checks::StepBeside& cell) {
  std::string text = cell.step->voltage ? checks::figures(*cell.step->voltage, 3) + " V" : dash;
  if (cell.more_volts) {
    text += " <span class=\"other\">(" + checks::difference_figures(1000.0 * *cell.more_volts, 1) +
            " mV)</span>";
  }
  return text;
}

void add_step(const checks::StepBeside& cell, bool first, std::vector<std::string>& cells) {
  const bool has = cell.hottest != nullptr;
  cells.push_back(has ? both_readings(*cell.hottest) +
                            (cell.at_end ? "" : " at minute " + minutes(cell.hottest->time))
                      : dash);
  cells.push_back(has ? escaped(cell.hottest->spot.name) : dash);
  cells.push_back(has ? volts_cell(cell) : dash);
  if (!first) {
    cells.push_back(cell.warmer ? checks::difference_figures(*cell.warmer, 1) + " K" : dash);
  }
}

std::string asked_by(const checks::StepsBeside& step) {
  std::string text;
  for (const auto& cell : step.records) {
    if (cell.step != nullptr && (text.empty() || !step.same_drive)) {
      text += (text.empty() ? "" : "; ") + asked(*cell.step);
    }
  }
  return text.empty() ? dash : text;
}

void add_item(const checks::ItemBeside& cell, bool first, std::vector<std::string>& cells) {
  if (cell.item == nullptr) {
    cells.emplace_back("not watched");
    cells.insert(cells.end(), first ? 1 : 2, dash);
    return;
  }
  const auto& crossing = cell.item->crossing;
  cells.push_back(state_mark(cell.item->state));
  cells.push_back(crossing ? fmt::format("minute {}, {}, {}", crossing_minute(*crossing),
                                         amperes(crossing->current), place(crossing->spot))
                           : dash);
  if (!first) {
    cells.push_back(cell.later ? checks::difference_figures(*cell.later / 60.0, 1) + " min" : dash);
  }
}

std::string what_differs(const std::vector<Source>& sources) {
  std::vector<const checks::Histories*> histories;
  std::vector<Table::Column> columns = {{"place", Align::left}, {"what", Align::left}};
  const auto called = names(sources);
  for (std::size_t i = 0; i < sources.size(); ++i) {
    histories.push_back(sources[i].histories.get());
    columns.push_back({called[i], Align::left});
  }
  const auto differences = checks::sheet_differences(histories);
  Table table("t6d", "T6 What differs between the records", columns);
  for (const auto& difference : differences.found) {
    std::vector<std::string> cells = {
        escaped(difference.place),
        escaped(difference.key) + (difference.of_source ? ": where it came from" : "")};
    for (const auto& value : difference.values) {
      cells.push_back(difference.of_source ? source_cell(value) : value_cell(value));
    }
    table.add(cells);
  }
  if (table.empty()) {
    return "<p id=\"t6d\">T6 What differs: nothing that the records hold of their inputs.</p>\n";
  }
  return table.markup(fmt::format(
      "Every value of the completed sheets, the materials and the settings that is not the same. "
      "{}{}",
      differences.same_text ? "All come from one run sheet, word for word."
                            : "The run sheets are not the same text.",
      differences.complete ? ""
                           : " A record of an older format is among them: words, watch items and "
                             "instruments are not compared."));
}

std::string side_by_side(const std::vector<Source>& sources) {
  std::vector<Table::Column> columns = {{"step", Align::right}, {"asked", Align::right}};
  const auto called = names(sources);
  for (std::size_t i = 0; i < sources.size(); ++i) {
    columns.push_back({called[i] + ": hottest conductor", Align::right});
    columns.push_back({"where", Align::left});
    columns.push_back({"volts", Align::right});
    if (i > 0) {
      columns.push_back({"difference", Align::right});
    }
  }
  Table table("t6", "T6 Side by side: the same clock", columns);
  for (const auto& step : beside_of(sources).steps) {
    std::vector<std::string> cells = {fmt::format("{}", step.number), asked_by(step)};
    for (std::size_t i = 0; i < step.records.size(); ++i) {
      add_step(step.records[i], i == 0, cells);
    }
    table.add(cells);
  }
  return table.markup(
      "Differences are against the first record, at the end of the same step; there is none where "
      "the results of a record end before.");
}

std::string crossings_beside(const std::vector<Source>& sources) {
  std::vector<Table::Column> columns = {{"item", Align::left}};
  const auto called = names(sources);
  for (std::size_t i = 0; i < sources.size(); ++i) {
    columns.push_back({called[i], Align::left});
    columns.push_back({"crossed", Align::left});
    if (i > 0) {
      columns.push_back({"later by", Align::right});
    }
  }
  Table table("t6c", "T6 First crossings side by side", columns);
  for (const auto& item : beside_of(sources).items) {
    std::vector<std::string> cells = {
        escaped(item.name) + (item.same_limit ? "" : " (<b>not the same limit in all</b>)")};
    for (std::size_t i = 0; i < item.records.size(); ++i) {
      add_item(item.records[i], i == 0, cells);
    }
    table.add(cells);
  }
  return table.empty() ? std::string() : table.markup("Later by is against the first record.");
}

}  // namespace

std::string records_beside(const std::vector<Source>& sources) {
  return sources.size() < 2
             ? std::string()
             : what_differs(sources) + side_by_side(sources) + crossings_beside(sources);
}

}  // namespace ampstair::post::report
