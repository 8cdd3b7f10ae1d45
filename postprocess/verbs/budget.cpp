// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <iostream>
#include <string>
#include <vector>

#include "checks/amounts.hpp"
#include "checks/heat_budget.hpp"
#include "checks/histories.hpp"
#include "checks/places.hpp"
#include "checks/validity.hpp"
#include "diagnostics/problem.hpp"
#include "verbs/post_verbs.hpp"
#include "verbs/record_options.hpp"
#include "verbs/text_table.hpp"

namespace ampstair::post::verbs {

namespace {

using checks::figures;
using checks::HeatBudget;

/// Heading and the names of the flows that stand under it.
struct Group {
  const char* heading;
  std::vector<std::string> flows;
};

const std::vector<Group>& groups() {
  static const std::vector<Group> all{{"made", {"made", "made by breakdown"}},
                                      {"round it", {"along what lies round it"}},
                                      {"stays", {"stays"}},
                                      {"air", {"to the air"}},
                                      {"walls", {"to the walls around"}},
                                      {"held", {"to what is held"}},
                                      {"beside", {"into what stands beside"}}};
  return all;
}

std::string amount(double watts) {
  return watts == 0.0                ? ""
         : std::abs(watts) >= 1000.0 ? fmt::format("{:+.1e}", watts)
         : std::abs(watts) >= 100.0  ? fmt::format("{:+.0f}", watts)
                                     : fmt::format("{:+.2f}", watts);
}

std::string amount_of(const HeatBudget& budget, const std::vector<std::string>& names) {
  double sum = 0.0;
  for (const auto& flow : budget.flows) {
    sum += std::find(names.begin(), names.end(), flow.name) != names.end() ? flow.watts : 0.0;
  }
  return amount(sum);
}

std::string table_of(const std::vector<HeatBudget>& budgets, std::size_t step) {
  std::vector<Column> columns = {{"place", 18}, {"at m", -5}, {"degC", -5}};
  for (const char* heading :
       {"made", "<start", "end>", "round it", "stays", "air", "walls", "held", "beside"}) {
    columns.push_back({heading, heading == std::string("round it") ? -8 : -6});
  }
  std::string text = table_heading(columns);
  for (const auto& budget : budgets) {
    if (budget.step != step) {
      continue;
    }
    std::vector<std::string> cells = {checks::place_text(budget), figures(budget.spot.position, 3),
                                      figures(budget.conductor - 273.15, 1)};
    for (const auto& group : groups()) {
      cells.push_back(amount_of(budget, group.flows));
      if (group.flows.front() == "made") {
        cells.push_back(amount(budget.from_start));
        cells.push_back(amount(budget.from_end));
      }
    }
    text += table_row(columns, cells);
  }
  return text;
}

std::string hottest_of_steps(const std::vector<HeatBudget>& budgets) {
  std::string text;
  for (const auto& budget : budgets) {
    if (&budget == checks::hottest_budget(budgets, budget.step)) {
      text += paragraph(
          fmt::format("Step {}, {}: hottest conductor {} at {}. {} {}", budget.step,
                      checks::minute_text(budget.time), checks::temperature_text(budget.conductor),
                      checks::spot_text(budget.spot), checks::budget_text(budget),
                      checks::why_text(budget, budgets)),
          2);
    }
  }
  return text;
}

std::size_t step_asked(const Given& given, const std::vector<HeatBudget>& budgets) {
  if (!given.has("step")) {
    return checks::hottest_step(budgets);
  }
  const std::string& word = given.options.at("step");
  std::size_t step = 0;
  const auto read = std::from_chars(word.data(), word.data() + word.size(), step);
  const auto in_step = [&](const HeatBudget& budget) { return budget.step == step; };
  if (read.ec != std::errc{} || read.ptr != word.data() + word.size() ||
      std::none_of(budgets.begin(), budgets.end(), in_step)) {
    throw diagnostics::InputError(
        "E707", fmt::format("the record has no budget of a step '{}'.", word),
        "write the number of a step that has ended, from 1; leave --step out for the hottest");
  }
  return step;
}

}  // namespace

diagnostics::ExitCode budget(Arguments arguments) {
  const RecordOptions options(
      "budget", "budget RECORD [--step N]",
      "Tells where the heat of the hottest places, the probes and the pieces comes from and goes.",
      {{"step", "N", "the step whose end the table is of; else that of the hottest conductor"}});
  const auto given = options.read(arguments);
  if (!given) {
    return diagnostics::ExitCode::clear;
  }
  const auto histories = checks::open_record(given->record);
  const auto budgets = checks::usable_budgets(
      *histories, checks::stored_flags(*histories, checks::Places(*histories)));
  if (budgets.empty()) {
    throw diagnostics::InputError("E708", "the record holds no heat budget that can be used.",
                                  "march the sheet again to its end; budgets are written then");
  }
  const std::size_t step = step_asked(*given, budgets);
  std::cout
      << "The hottest place at the end of every step\n"
      << hottest_of_steps(budgets)
      << fmt::format("\nEnd of step {}, W per metre of wire: + comes in, - stays or goes\n", step)
      << table_of(budgets, step)
      << "  <start, end>: along the wire from the sides of the run's start and end; round it:\n"
         "  along what lies round the wire; beside: into a knob, a lug or wood it faces;\n"
         "  these by themselves: table body_budget of the record.\n";
  return diagnostics::ExitCode::clear;
}

}  // namespace ampstair::post::verbs
