// SPDX-License-Identifier: MIT
#include "verbs/compare_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "checks/amounts.hpp"
#include "checks/cautions.hpp"
#include "checks/validity.hpp"
#include "verbs/text_table.hpp"
#include "verbs/words.hpp"

namespace ampstair::post::verbs {

namespace {

using checks::figures;

constexpr std::size_t line_width = 100;
constexpr int key_width = 28;
constexpr double minute = 60.0;  // s

/// The records go by letters: A is the first.
std::string letter(std::size_t record) {
  return record < 26 ? std::string(1, static_cast<char>('A' + record))
                     : fmt::format("{}", record + 1);
}

std::string heading(const std::vector<Compared>& records) {
  std::string text =
      fmt::format("{} records on one clock; differences are against A\n", records.size());
  for (std::size_t i = 0; i < records.size(); ++i) {
    const auto& run = records[i].findings.heading;
    text += paragraph(fmt::format("{}  {}: {}, arrangement '{}', run sheet {}, {}", letter(i),
                                  records[i].name, run.title, run.arrangement, run.sheet_name,
                                  run.finished ? "finished at " + checks::minute_text(run.ends)
                                               : "UNFINISHED at " + checks::minute_text(run.ends)),
                      2);
    if (!run.beyond.empty()) {
      text += paragraph("told to go on past its own stops: " + run.beyond, 5);
    }
  }
  return text;
}

// ---- what differs

std::string value_text(const std::optional<checks::SheetValue>& value) {
  return value ? value->text : nothing;
}

std::string source_text(const std::optional<checks::SheetValue>& value) {
  if (!value) {
    return nothing;
  }
  const std::string source = value->source.empty() ? "no source given" : value->source;
  return value->by_default ? "default (" + source + ")" : source;
}

/// In columns where all fits into them, else a line a record: nothing is cut.
std::string difference_lines(const checks::Difference& difference) {
  const int width =
      (static_cast<int>(line_width) - key_width - 4) / static_cast<int>(difference.values.size()) -
      2;
  std::vector<Column> columns = {{"", key_width}};
  std::vector<std::string> fields = {difference.key};
  bool fits = length_of(difference.key) <= static_cast<std::size_t>(key_width);
  for (const auto& value : difference.values) {
    fields.push_back(value_text(value));
    fits = fits && static_cast<int>(length_of(fields.back())) <= width;
    columns.push_back({"", width});
  }
  if (fits) {
    return "  " + table_row(columns, fields);
  }
  std::string text = paragraph(difference.key, 4);
  for (std::size_t i = 0; i < difference.values.size(); ++i) {
    text += paragraph(fmt::format("{}  {}", letter(i), fields[i + 1]), 6);
  }
  return text;
}

std::string letters_row(std::size_t records) {
  const int width = (static_cast<int>(line_width) - key_width - 4) / static_cast<int>(records) - 2;
  std::vector<Column> columns = {{"", key_width}};
  for (std::size_t i = 0; i < records; ++i) {
    columns.push_back({letter(i), width});
  }
  return "  " + table_heading(columns);
}

std::string values_table(const checks::SheetDifferences& differences, std::size_t records) {
  std::string text;
  std::string place;
  for (const auto& difference : differences.found) {
    if (difference.of_source) {
      continue;
    }
    if (text.empty()) {
      text = letters_row(records);
    }
    if (difference.place != place) {
      place = difference.place;
      text += paragraph(place, 2);
    }
    text += difference_lines(difference);
  }
  return text.empty() ? "  no value differs\n" : text;
}

std::string sources_list(const checks::SheetDifferences& differences) {
  std::string text;
  for (const auto& difference : differences.found) {
    if (!difference.of_source) {
      continue;
    }
    std::string line = fmt::format("{} {}, {}:", difference.place, difference.key,
                                   value_text(difference.values.front()));
    for (std::size_t i = 0; i < difference.values.size(); ++i) {
      line += fmt::format(" {} {};", letter(i), source_text(difference.values[i]));
    }
    line.back() = '.';
    text += paragraph(line, 4);
  }
  return text.empty() ? text : "\n  The same value, from elsewhere\n" + text;
}

std::string differences_text(const std::vector<Compared>& records) {
  const auto differences = differences_of(records);
  std::string text = fmt::format("\nWhat differs ({})\n",
                                 differences.same_text ? "one run sheet, word for word"
                                                       : "the run sheets are not the same text");
  text += values_table(differences, records.size()) + sources_list(differences);
  if (!differences.complete) {
    text += paragraph(
        "A record without its completed sheet (before format 1.3) is among them: words such as a "
        "material's name or a fit, watch items and instruments are not compared.",
        2);
  }
  return text;
}

// ---- what it did

std::string signed_kelvin(const checks::StepBeside& cell) {
  if (!cell.warmer) {
    return {};
  }
  const std::string bar =
      cell.warmer_error
          ? fmt::format(" ± {:.1f}", std::max(0.1, std::ceil(10.0 * *cell.warmer_error) / 10.0))
          : "";
  return checks::difference_figures(*cell.warmer, 1) + bar + " K";
}

const std::vector<Column>& step_columns() {
  static const std::vector<Column> columns = {
      {"#", -3},     {"asked", -7},       {"", 2},   {"conductor", -14}, {"difference", -13},
      {"volts", -9}, {"difference", -10}, {"at", 26}};
  return columns;
}

std::string step_lines(const checks::StepsBeside& step) {
  std::string text;
  for (std::size_t i = 0; i < step.records.size(); ++i) {
    const auto& cell = step.records[i];
    const bool has = cell.step != nullptr && cell.hottest != nullptr;
    text += table_row(
        step_columns(),
        {i == 0 ? fmt::format("{}", step.number) : "",
         cell.step != nullptr && (i == 0 || !step.same_drive) ? asked_text(*cell.step) : "",
         letter(i), has ? checks::reading_text(*cell.hottest) : nothing, signed_kelvin(cell),
         has ? amount(cell.step->voltage, "V", 3) : nothing,
         cell.more_volts ? checks::difference_figures(1000.0 * *cell.more_volts, 1) + " mV" : "",
         has ? short_spot(cell.hottest->spot) : ""});
    if (has && !cell.at_end) {
      text += paragraph(fmt::format("{} ends within the step: its figures are of minute {}",
                                    letter(i), minutes(cell.hottest->time)),
                        8);
    }
  }
  return text;
}

std::string steps_text(const checks::Beside& beside) {
  std::string text =
      "\nWhat it did: the hottest conductor and the volts over the wire at the end of each step\n";
  text += table_heading(step_columns());
  bool same = true;
  for (const auto& step : beside.steps) {
    text += step_lines(step);
    same = same && step.same_drive;
  }
  if (!same) {
    text += paragraph(
        "Steps go together by their number; not all ask the same of the wire in the same minutes.",
        2);
  }
  return text;
}

const std::vector<Column>& item_columns() {
  static const std::vector<Column> columns = {{"", 2},           {"state", 14}, {"minute", -6},
                                              {"later by", -10}, {"place", 22}, {"current", -7},
                                              {"step", -4},      {"above", -8}, {"longer by", -9}};
  return columns;
}

std::string signed_minutes(const std::optional<double>& seconds) {
  return seconds ? checks::difference_figures(*seconds / minute, 1) + " min" : "";
}

std::string piece_spot(const checks::Spot& spot) {
  return figures(spot.position, 3) + " m " + spot.name.substr(0, spot.name.find(" + "));
}

std::string item_line(const checks::ItemBeside& cell, std::size_t record) {
  if (cell.item == nullptr) {
    return table_row(item_columns(), {letter(record), "not watched"});
  }
  const auto& crossing = cell.item->crossing;
  return table_row(
      item_columns(),
      {letter(record), state_text(cell.item->state), crossing ? minutes(crossing->time) : nothing,
       signed_minutes(cell.later), crossing ? piece_spot(crossing->spot) : nothing,
       crossing ? amount(crossing->current, "A", 1) : nothing,
       crossing && crossing->step ? fmt::format("{}", *crossing->step) : nothing,
       cell.item->longest ? checks::span_text(*cell.item->longest) : nothing,
       signed_minutes(cell.longer)});
}

std::string items_text(const checks::Beside& beside) {
  std::string text = "\nFirst crossings, longest time above and states\n";
  if (beside.items.empty()) {
    return text + "  no watch items\n";
  }
  text += table_heading(item_columns());
  for (const auto& item : beside.items) {
    const auto first = std::find_if(item.records.begin(), item.records.end(),
                                    [](const auto& cell) { return cell.item != nullptr; });
    text += paragraph(fmt::format("{}: {} on {}{}{}", item.name,
                                  checks::limit_text(first->item->item), first->item->item.part,
                                  item.same_limit ? "" : "; NOT the same limit or part in all",
                                  item.flips ? "; the state changes" : ""),
                      2);
    for (std::size_t i = 0; i < item.records.size(); ++i) {
      text += item_line(item.records[i], i);
    }
  }
  return text + paragraph(
                    "C ○ clear of the stated limit; N ◐ near; X ● crossed; ? ◇ cannot say. Times "
                    "above are "
                    "set against each other only where the results of both go on as long.",
                    2);
}

/// How many flags a record's verdict tells, with the first that is more than to be known.
std::string flags_text(const checks::Findings& findings) {
  const auto first = std::find_if(findings.validity.begin(), findings.validity.end(),
                                  [](const auto& flag) { return flag.severity != "note"; });
  if (findings.validity.empty()) {
    return {};
  }
  return fmt::format("{} validity flags; {}", findings.validity.size(),
                     first == findings.validity.end()
                         ? std::string("the model holds all along")
                         : "it leaves the model with " + checks::flag_text(*first));
}

/// Every note once, with the records it is about; flags by their first.
std::string notes_text(const std::vector<Compared>& records) {
  std::vector<std::pair<std::string, std::string>> told;  // note, letters
  const auto tell = [&](const std::string& note, const std::string& of) {
    const auto known =
        std::find_if(told.begin(), told.end(), [&](const auto& one) { return one.first == note; });
    if (known == told.end()) {
      told.emplace_back(note, of);
    } else {
      known->second += ", " + of;
    }
  };
  for (std::size_t i = 0; i < records.size(); ++i) {
    const auto& findings = records[i].findings;
    for (const auto& note : findings.notes) {
      const bool of_flag =
          std::any_of(findings.validity.begin(), findings.validity.end(),
                      [&](const auto& flag) { return checks::flag_text(flag) == note; });
      if (!of_flag) {
        tell(note, letter(i));
      }
    }
    if (const auto flags = flags_text(findings); !flags.empty()) {
      tell(flags, letter(i));
    }
  }
  std::string text;
  for (const auto& [note, letters] : told) {
    text += paragraph(letters + "  " + note, 2);
  }
  return text;
}

std::string overall_text(const std::vector<Compared>& records) {
  std::string text = "\nEach as a whole\n";
  for (std::size_t i = 0; i < records.size(); ++i) {
    const auto& findings = records[i].findings;
    const auto& hottest = findings.hottest_conductor;
    text += paragraph(fmt::format("{}  {}{}", letter(i), state_text(findings.overall),
                                  hottest ? fmt::format("; hottest conductor {} at {}, {}",
                                                        checks::reading_text(*hottest),
                                                        checks::spot_text(hottest->spot),
                                                        checks::minute_text(hottest->time))
                                          : std::string()),
                      2);
  }
  return text;
}

}  // namespace

std::string compare_text(const std::vector<Compared>& records) {
  const auto beside = beside_of(records);
  std::string text = heading(records) + differences_text(records) + steps_text(beside) +
                     items_text(beside) + overall_text(records) + notes_text(records) + "\n";
  for (const auto caution : checks::cautions) {
    text += fmt::format("{}\n", caution);
  }
  return text;
}

}  // namespace ampstair::post::verbs
