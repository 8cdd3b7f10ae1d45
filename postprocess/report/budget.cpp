// SPDX-License-Identifier: MIT
#include "report/budget.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <nlohmann/json.hpp>
#include <string_view>

#include "report/html.hpp"
#include "report/words.hpp"

namespace ampstair::post::report {

namespace {

using checks::HeatBudget;
using Align = Table::Align;

/// W/m and its share of what comes in, of the flows of these names together.
std::string cell(const HeatBudget& budget, std::initializer_list<std::string_view> names) {
  double watts = 0.0;
  for (const auto& flow : budget.flows) {
    watts += std::find(names.begin(), names.end(), flow.name) != names.end() ? flow.watts : 0.0;
  }
  if (std::abs(watts) < 0.005) {
    return {};
  }
  return fmt::format("{:+.2f}<br><span class=\"other\">{:.0f} %</span>", watts,
                     100.0 * std::abs(watts) / budget.comes_in());
}

std::string side(double watts) {
  return std::abs(watts) < 0.005 ? std::string() : fmt::format("{:+.2f}", watts);
}

void add(const HeatBudget& budget, Table& table) {
  const double comes = budget.comes_in();
  table.add(
      {fmt::format("{}", budget.step), escaped(checks::place_text(budget)), place(budget.spot),
       both_temperatures(budget.conductor), cell(budget, {"made", "made by breakdown"}),
       side(budget.from_start), side(budget.from_end), cell(budget, {"along what lies round it"}),
       cell(budget, {"stays"}), cell(budget, {"to the air"}), cell(budget, {"to the walls around"}),
       cell(budget, {"to what is held", "into what stands beside"}),
       comes > 0.0 ? fmt::format("{:.1f} %", 100.0 * budget.goes() / comes) : "–"});
}

}  // namespace

std::string heat_budget(const Source& source) {
  const auto& budgets = source.budgets;
  if (budgets.empty()) {
    return "<p id=\"t13\">T13 Heat budget: the record holds none that can be used.</p>\n";
  }
  Table table("t13", "T13 Heat budget: why is it hottest there? W per metre of wire, as steps end",
              {{"step", Align::right},
               {"place", Align::left},
               {"where", Align::left},
               {"conductor", Align::right},
               {"made", Align::right},
               {"along the wire, start’s side", Align::right},
               {"end’s side", Align::right},
               {"along what lies round it", Align::right},
               {"stays", Align::right},
               {"to the air", Align::right},
               {"to the walls", Align::right},
               {"held, or into what stands beside", Align::right},
               {"sums to", Align::right}});
  const std::size_t hottest = checks::hottest_step(budgets);
  for (const auto& budget : budgets) {
    if (&budget == checks::hottest_budget(budgets, budget.step)) {
      add(budget, table);
      table.add_remark(escaped(checks::why_text(budget, budgets)));
    }
  }
  for (const auto& budget : budgets) {
    if (budget.step == hottest && &budget != checks::hottest_budget(budgets, hottest)) {
      add(budget, table);
    }
  }
  return table.markup(fmt::format(
      "Above 0 heat comes in, below 0 it stays or goes; per cent of all that comes in, the wire's "
      "two sides together. First the hottest place of every step, then the other places of step "
      "{}. Heat that stays warms wire, sleeve, fill, porcelain or wood.",
      hottest));
}

nlohmann::json budget_bars(const Source& source) {
  nlohmann::json bars = nlohmann::json::array();
  const std::size_t hottest = checks::hottest_step(source.budgets);
  for (const auto& budget : source.budgets) {
    const bool drawn =
        budget.kind == "piece" || &budget == checks::hottest_budget(source.budgets, hottest);
    if (budget.step != hottest || !drawn) {
      continue;
    }
    for (const auto& flow : budget.flows) {
      bars.push_back({{"place", checks::place_text(budget)},
                      {"flow", flow.name},
                      {"watts", std::round(flow.watts * 1e3) / 1e3}});
    }
  }
  return bars;
}

}  // namespace ampstair::post::report
