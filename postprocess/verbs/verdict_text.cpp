// SPDX-License-Identifier: MIT
#include "verbs/verdict_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "checks/amounts.hpp"
#include "checks/cautions.hpp"
#include "checks/zero_celsius.hpp"
#include "verbs/settling_and_device.hpp"
#include "verbs/text_table.hpp"
#include "verbs/words.hpp"

namespace ampstair::post::verbs {

namespace {

using checks::figures;
using checks::Findings;
using checks::ItemFinding;
using checks::limit_text;
using checks::minute_text;
using checks::reading_text;
using checks::span_text;
using checks::spot_text;
using checks::StepFinding;
using checks::temperature_text;

constexpr double minute = 60.0;  // s
constexpr double hour = 3600.0;  // s

/// A stated limit is the user's own number: it is not rounded to three figures.
std::string stated(double kelvin) {
  return fmt::format("{:.5g} °C", kelvin - celsius_zero);
}

std::string heading(const Findings& findings, const std::string& record) {
  const auto& run = findings.heading;
  std::string text = paragraph(fmt::format("Verdict on {}: {}", record, run.title), 0);
  text += paragraph(fmt::format("arrangement '{}', run sheet {}, marched by {} on {}, {}",
                                run.arrangement, run.sheet_name, run.program, run.created,
                                run.finished ? "finished at " + minute_text(run.ends)
                                             : "UNFINISHED at " + minute_text(run.ends)),
                    2);
  for (const auto& note : findings.notes) {
    text += paragraph(note, 2);
  }
  return text;
}

std::string hottest_sentence(const Findings& findings) {
  const auto& hottest = findings.hottest_conductor;
  if (!hottest) {
    return {};
  }
  const std::string step =
      findings.hottest_step ? fmt::format(", in step {}", *findings.hottest_step) : "";
  return "\n" + paragraph(fmt::format("Under the inputs listed in the record, the model gives a "
                                      "hottest conductor temperature of {} at {}, at {}{}.",
                                      reading_text(*hottest), spot_text(hottest->spot),
                                      minute_text(hottest->time), step),
                          0);
}

const std::vector<Column>& step_columns() {
  static const std::vector<Column> columns = {{"#", -2},          {"minutes", -12}, {"asked", -7},
                                              {"got", -7},        {"volts", -7},    {"watts", -7},
                                              {"conductor", -15}, {"at", 26}};
  return columns;
}

std::vector<std::string> step_fields(const StepFinding& step) {
  return {fmt::format("{}", step.number),
          figures(step.begin / minute, 1) + "-" + figures(step.end / minute, 1),
          asked_text(step),
          amount(step.got, "A", 1),
          amount(step.voltage, "V"),
          amount(step.power, "W")};
}

/// The other parts of a step in one line, each with its hottest temperature and place.
std::string other_parts(const StepFinding& step) {
  std::vector<std::string> texts;
  for (const auto& part : step.parts) {
    if (part.part != "conductor") {
      const auto& spot = part.at_end.spot;
      texts.push_back(fmt::format("{} {} at {:.2f} m {}", part.part, reading_text(part.at_end),
                                  spot.position, spot.name.substr(0, spot.name.find(" + "))));
    }
  }
  return texts.empty() ? std::string() : paragraph(fmt::format("{}", fmt::join(texts, ", ")), 7);
}

/// What the figures at the step's end hide.
std::string step_remarks(const StepFinding& step) {
  std::string text;
  if (!step.reached) {
    return paragraph("not reached by the record", 8);
  }
  if (!step.complete) {
    text += paragraph("the record ends within this step; the figures are of its last row", 8);
  }
  if (!step.until.empty() && step.complete) {
    const std::string name = step.until.substr(step.until.find(' ') + 1);
    text += paragraph(step.settled
                          ? fmt::format("settled by the rule '{}', which ended it", name)
                          : fmt::format("not settled by the rule '{}' when its time was up", name),
                      8);
  }
  const double spread = step.got_greatest.value_or(0.0) - step.got_least.value_or(0.0);
  if (spread > 0.005 * std::abs(step.got_greatest.value_or(0.0))) {
    text += paragraph(fmt::format("got {} to {} within the step", amount(step.got_least, "A", 1),
                                  amount(step.got_greatest, "A", 1)),
                      8);
  }
  constexpr double told = 0.5;  // K
  for (const auto& part : step.parts) {
    if (part.greatest.temperature > part.at_end.temperature + told) {
      text += paragraph(fmt::format("{} hottest within the step: {} at {}, {}", part.part,
                                    reading_text(part.greatest), minute_text(part.greatest.time),
                                    spot_text(part.greatest.spot)),
                        8);
    }
  }
  return text;
}

std::string step_lines(const StepFinding& step) {
  auto fields = step_fields(step);
  for (const auto& part : step.parts) {
    if (part.part == "conductor") {
      fields.push_back(reading_text(part.at_end));
      fields.push_back(short_spot(part.at_end.spot));
    }
  }
  return table_row(step_columns(), fields) + other_parts(step) + step_remarks(step);
}

std::string steps_table(const Findings& findings) {
  std::string text =
      "\nSteps (at the end of each; volts over the wire, watts made in it; the hottest of each "
      "part, "
      "a\ncovering is as hot inside as its conductor)\n";
  text += table_heading(step_columns());
  for (const auto& step : findings.steps) {
    text += step_lines(step);
  }
  return text;
}

constexpr int item_width = 14;
constexpr int place_width = 26;

const std::vector<Column>& crossing_columns() {
  static const std::vector<Column> columns = {
      {"state", 14},          {"item", item_width}, {"limit", 15}, {"minute", -6},
      {"place", place_width}, {"current", -7},      {"step", -4}};
  return columns;
}

/// What the table had to cut short.
std::vector<std::string> cut_texts(const ItemFinding& finding) {
  std::vector<std::string> texts;
  if (length_of(finding.item.name) > item_width) {
    texts.push_back(fmt::format("'{}'", finding.item.name));
  }
  if (finding.crossing && length_of(short_spot(finding.crossing->spot)) > place_width) {
    texts.push_back("first at " + spot_text(finding.crossing->spot));
  }
  return texts;
}

std::string dose_text(const ItemFinding& finding) {
  const auto hours = [](double seconds) { return figures(seconds / hour, 2) + " h"; };
  const auto& dose = *finding.dose;
  std::string text = fmt::format(
      "ages like {} at {} ({} % of the full dose) at {}", hours(dose.equivalent),
      stated(finding.item.reference_temperature),
      figures(100.0 * dose.equivalent / finding.item.reference_duration, 1), spot_text(dose.spot));
  if (dose.low && dose.high) {
    const auto [least, most] = std::minmax(*dose.low, *dose.high);
    text += fmt::format(", {} to {} over the energy's band", hours(least), hours(most));
  }
  return text;
}

std::string item_remarks(const ItemFinding& finding) {
  auto remarks = cut_texts(finding);
  if (finding.crossing && finding.crossing->error) {
    remarks.push_back("the moment good to " + span_text(*finding.crossing->error) +
                      " by the bar of error");
  }
  if (!finding.remark.empty()) {
    remarks.push_back(finding.remark);
  }
  if (finding.dose) {
    remarks.push_back(dose_text(finding));
  }
  if (finding.char_depth) {
    remarks.push_back(fmt::format("char depth {:.2f} mm: the {} {} {}",
                                  *finding.char_depth * 1000.0, finding.item.part,
                                  *finding.char_depth > 0.0 ? "has been at" : "stays below",
                                  temperature_text(finding.item.isotherm)));
  }
  if (finding.longest && finding.longest_at) {
    remarks.push_back(fmt::format("longest time above {} at {}", span_text(*finding.longest),
                                  spot_text(*finding.longest_at)));
  }
  if (finding.hottest) {
    remarks.push_back(fmt::format("hottest {} {} at {}, {}", finding.item.part,
                                  reading_text(*finding.hottest), spot_text(finding.hottest->spot),
                                  minute_text(finding.hottest->time)));
  }
  std::string text;
  for (const auto& remark : remarks) {
    text += (text.empty() ? "" : "; ") + remark;
  }
  return text.empty() ? text : paragraph(text, 4);
}

std::string item_lines(const ItemFinding& finding) {
  std::vector<std::string> fields = {state_text(finding.state), finding.item.name,
                                     limit_text(finding.item)};
  if (const auto& crossing = finding.crossing) {
    fields.push_back(figures(crossing->time / minute, 1));
    fields.push_back(short_spot(crossing->spot));
    fields.push_back(amount(crossing->current, "A", 1));
    fields.push_back(crossing->step ? fmt::format("{}", *crossing->step) : nothing);
  } else {
    fields.insert(fields.end(), 4, nothing);
  }
  return table_row(crossing_columns(), fields) + item_remarks(finding);
}

std::string crossings_table(const Findings& findings) {
  std::string text = "\nFirst crossings\n";
  if (findings.items.empty()) {
    return text + "  no watch items\n";
  }
  text += table_heading(crossing_columns());
  for (const auto& item : findings.items) {
    text += item_lines(item);
  }
  text += paragraph(
      fmt::format("C ○ clear of the stated limit; N ◐ near: not crossed, but within {:.0f} K or at "
                  "one end of a band; X ● crossed; ? ◇ cannot say.",
                  watch::near_margin),
      2);
  return text;
}

std::string ledger_line(const checks::Ledger& ledger) {
  const auto kilojoules = [](double joules) { return figures(joules / 1000.0, 2) + " kJ"; };
  return "\n" + paragraph(fmt::format("Energy ledger at the last row: {} made, {} lost, {} stored; "
                                      "they differ by at most {:.0e} of the heat made at any row.",
                                      kilojoules(ledger.made), kilojoules(ledger.lost),
                                      kilojoules(ledger.stored), ledger.worst_gap),
                          0);
}

}  // namespace

std::string verdict_text(const checks::Verdict& verdict, const std::string& record) {
  const Findings& findings = verdict.findings;
  std::string text = heading(findings, record) + hottest_sentence(findings) +
                     steps_table(findings) + settling_text(verdict) + crossings_table(findings) +
                     device_text(verdict);
  if (findings.ledger) {
    text += ledger_line(*findings.ledger);
  }
  text += "\n";
  for (const auto caution : checks::cautions) {
    text += fmt::format("{}\n", caution);
  }
  return text;
}

}  // namespace ampstair::post::verbs
