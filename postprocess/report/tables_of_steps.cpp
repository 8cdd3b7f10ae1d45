// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <cstddef>

#include "checks/amounts.hpp"
#include "checks/sentences.hpp"
#include "report/html.hpp"
#include "report/tables.hpp"
#include "report/words.hpp"

namespace ampstair::post::report {

namespace {

using checks::figures;
using checks::StepFinding;
using Align = Table::Align;

const checks::PartInStep* part_of(const StepFinding& step, const std::string& name) {
  for (const auto& part : step.parts) {
    if (part.part == name) {
      return &part;
    }
  }
  return nullptr;
}

std::string amount(const std::optional<double>& value, const char* unit) {
  return value ? figures(*value, 2) + " " + unit : dash;
}

std::string hottest_cell(const StepFinding& step, const std::string& part) {
  const auto* found = part_of(step, part);
  return found != nullptr ? both_readings(found->at_end) : dash;
}

std::string step_remark(const StepFinding& step) {
  if (!step.reached) {
    return "not reached by the record";
  }
  std::string text;
  if (!step.complete) {
    text = "the record ends within this step; the figures are of its last row";
  }
  const double most = step.got_greatest.value_or(0.0);
  if (most - step.got_least.value_or(0.0) > 0.005 * std::abs(most)) {
    text += fmt::format("{}got {} to {} within the step", text.empty() ? "" : "; ",
                        amperes(step.got_least), amperes(step.got_greatest));
  }
  return text;
}

}  // namespace

std::string steps(const Source& source) {
  Table table("t2", "T2 Steps: at the end of each",
              {{"#", Align::right},
               {"minutes", Align::right},
               {"asked", Align::right},
               {"got", Align::right},
               {"volts over the wire", Align::right},
               {"watts in it", Align::right},
               {"hottest conductor", Align::right},
               {"where", Align::left},
               {"hottest surface", Align::right},
               {"hottest ceramic", Align::right},
               {"hottest wood", Align::right}});
  for (const auto& step : source.findings.steps) {
    const auto* conductor = part_of(step, "conductor");
    table.add({fmt::format("{}", step.number),
               fmt::format("{} to {}", minutes(step.begin), minutes(step.end)), asked(step),
               amperes(step.got), amount(step.voltage, "V"), amount(step.power, "W"),
               hottest_cell(step, "conductor"),
               conductor != nullptr ? place(conductor->at_end.spot) : dash,
               hottest_cell(step, "surface"), hottest_cell(step, "ceramic"),
               hottest_cell(step, "wood")});
    if (const auto remark = step_remark(step); !remark.empty()) {
      table.add_remark(remark);
    }
  }
  return table.markup(
      "Each line is what the model gives at the last moment of a step. The conductor is hotter "
      "than "
      "the surface a camera or a hand meets; a covering is as hot inside as its conductor.");
}

std::string settling(const Source& source) {
  std::vector<Table::Column> columns = {{"step", Align::right}};
  for (const auto rule : checks::all_rules) {
    columns.push_back(
        {checks::meaning_of(rule) + " (" + checks::document_of(rule) + ")", Align::right});
  }
  columns.push_back({"at the end of the step", Align::left});
  Table table("t2b", "T2 Settled? Minutes after the step begins, by published rules", columns);
  for (const auto& step : source.settling) {
    std::vector<std::string> cells = {fmt::format("{}", step.number)};
    for (const auto& rule : step.rules) {
      std::string text = rule.after ? minutes(*rule.after) : "not in the step";
      if (rule.after && rule.to_come) {
        text += fmt::format(" <span class=\"other\">(short by {} K)</span>",
                            figures(std::abs(*rule.to_come), 1));
      }
      cells.push_back(text);
    }
    cells.push_back(rest_words(step));
    table.add(cells);
  }
  if (table.empty()) {
    return {};
  }
  return table.markup(
      "The rules read the hottest conductor and differ widely: the name of the rule belongs to the "
      "number. What is still to come is extrapolated from the last half of the step as if it "
      "closed "
      "in evenly; porcelain, wood and fill may make it more.");
}

}  // namespace ampstair::post::report
