// SPDX-License-Identifier: MIT
#include "checks/heat_budget.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "checks/amounts.hpp"
#include "checks/columns.hpp"
#include "checks/places.hpp"
#include "checks/validity.hpp"
#include "checks/zero_celsius.hpp"

namespace ampstair::post::checks {

namespace {

constexpr double told_from = 0.005;    // of all that comes in
constexpr double matters_from = 0.03;  // of it, among reasons
constexpr const char* along_the_wire = "along the wire";
constexpr const char* made = "made";
constexpr const char* beside = "into what stands beside";

/// Columns of the record that make up a flow, those of what goes with a minus.
struct Source {
  const char* name;
  std::vector<const char*> columns;
  double sign;
};

const std::vector<Source>& sources() {
  static const std::vector<Source> all{
      {made, {"made"}, 1.0},
      {"made by breakdown", {"breakdown"}, 1.0},
      {along_the_wire, {"wire_from_start", "wire_from_end"}, 1.0},
      {"along what lies round it", {"around_from_start", "around_from_end"}, 1.0},
      {"stays", {"stored_in_wire", "stored_around"}, -1.0},
      {"to the air", {"convected"}, -1.0},
      {"to the walls around", {"radiated"}, -1.0},
      {"to what is held", {"held"}, -1.0},
      {beside, {"into_body"}, -1.0}};
  return all;
}

/// Parts whose flags end the results of the wire, wherever it is.
std::vector<std::string> parts_of_the_wire(const Histories& histories) {
  std::vector<std::string> parts;
  if (histories.has("parts/name")) {
    const auto name = histories.texts("parts", "name");
    const auto series = histories.texts("parts", "series");
    for (std::size_t i = 0; i < name.size(); ++i) {
      if (series[i] == "conductor_temperature" || series[i] == "surface_temperature") {
        parts.push_back(name[i]);
      }
    }
  }
  return parts;
}

void add_listed(const std::string& listed, std::vector<std::string>& parts) {
  for (std::size_t at = 0; at < listed.size();) {
    const std::size_t end = std::min(listed.find(", ", at), listed.size());
    parts.push_back(listed.substr(at, end - at));
    at = end + 2;
  }
}

std::vector<HeatBudget> stored_budgets(const Histories& histories) {
  const Columns table(histories, "heat_budget");
  const auto step = table.numbers("step"), time = table.numbers("time"),
             position = table.numbers("position"), conductor = table.numbers("conductor"),
             gap = table.numbers("gap"), from_start = table.numbers("wire_from_start"),
             from_end = table.numbers("wire_from_end");
  const auto kind = table.texts("kind"), place = table.texts("place"),
             around = table.texts("around"), body = table.texts("body");
  const Places places(histories);
  std::vector<HeatBudget> budgets;
  for (std::size_t i = 0; i < step.size(); ++i) {
    HeatBudget budget;
    budget.step = static_cast<std::size_t>(step[i]) + 1;
    budget.time = time.at(i);
    budget.kind = kind.at(i);
    budget.place = place.at(i);
    budget.spot = places.spot(position.at(i));
    budget.conductor = conductor.at(i) + celsius_zero;
    budget.around = around.at(i);
    budget.body = body.at(i);
    budget.from_start = from_start.at(i);
    budget.from_end = from_end.at(i);
    budget.gap = gap.at(i);
    budgets.push_back(std::move(budget));
  }
  for (const Source& source : sources()) {
    std::vector<double> sum(budgets.size(), 0.0);
    for (const char* name : source.columns) {
      const auto column = table.numbers(name);
      for (std::size_t i = 0; i < sum.size(); ++i) {
        sum[i] += source.sign * column.at(i);
      }
    }
    for (std::size_t i = 0; i < sum.size(); ++i) {
      if (sum[i] != 0.0) {
        budgets[i].flows.push_back({source.name, sum[i]});
      }
    }
  }
  return budgets;
}

double flow_of(const HeatBudget& budget, const char* name) {
  for (const HeatFlow& flow : budget.flows) {
    if (flow.name == name) {
      return flow.watts;
    }
  }
  return 0.0;
}

/// "is made", "goes to the air", "comes from the air", "stays", "was stored".
std::string phrase(const HeatFlow& flow) {
  const bool comes = flow.watts > 0.0;
  const auto after = [&](std::string_view word) { return flow.name.substr(word.size()); };
  if (flow.name == "stays") {
    return comes ? "was stored" : flow.name;
  }
  if (flow.name.starts_with(made)) {
    return comes ? "is " + flow.name : "is taken up" + after(made);
  }
  if (comes && flow.name.starts_with("to ")) {
    return "comes from " + after("to ");
  }
  if (comes && flow.name.starts_with("into ")) {
    return "comes from " + after("into ");
  }
  return (comes ? "comes " : "goes ") + flow.name;
}

/// "61 % goes to the air", the greatest first; of what comes in (sign 1) or goes (-1).
std::string shares_text(const HeatBudget& budget, double sign) {
  std::vector<HeatFlow> flows;
  for (const HeatFlow& flow : budget.flows) {
    if (sign * flow.watts > told_from * budget.comes_in()) {
      flows.push_back(flow);
    }
  }
  std::stable_sort(flows.begin(), flows.end(), [](const HeatFlow& a, const HeatFlow& b) {
    return std::abs(a.watts) > std::abs(b.watts);
  });
  std::string text;
  for (const HeatFlow& flow : flows) {
    text += fmt::format("{}{:.0f} % {}", text.empty() ? "" : ", ",
                        100.0 * std::abs(flow.watts) / budget.comes_in(), phrase(flow));
  }
  return text;
}

/// W/m made in the middle of the median piece of a step.
std::optional<double> made_elsewhere(const std::vector<HeatBudget>& budgets, std::size_t step) {
  std::vector<double> watts;
  for (const HeatBudget& budget : budgets) {
    if (budget.step == step && budget.kind == "piece") {
      watts.push_back(flow_of(budget, made));
    }
  }
  if (watts.empty()) {
    return std::nullopt;
  }
  const auto middle = watts.begin() + static_cast<std::ptrdiff_t>(watts.size() / 2);
  std::nth_element(watts.begin(), middle, watts.end());
  return *middle;
}

}  // namespace

double HeatBudget::comes_in() const {
  double sum = 0.0;
  for (const HeatFlow& flow : flows) {
    sum += std::max(flow.watts, 0.0);
  }
  return sum;
}

double HeatBudget::goes() const {
  double sum = 0.0;
  for (const HeatFlow& flow : flows) {
    sum += std::max(-flow.watts, 0.0);
  }
  return sum;
}

std::vector<HeatBudget> usable_budgets(const Histories& histories,
                                       const std::vector<ValidityFlag>& flags) {
  if (!histories.has("heat_budget/made")) {
    return {};
  }
  auto budgets = stored_budgets(histories);
  const auto wire = parts_of_the_wire(histories);
  std::erase_if(budgets, [&](const HeatBudget& budget) {
    auto parts = wire;
    add_listed(budget.around, parts);
    if (!budget.body.empty()) {
      parts.insert(parts.end(), {"ceramic", "wood"});
    }
    const auto until = usable_until(flags, parts);
    return until && budget.time > *until;
  });
  return budgets;
}

const HeatBudget* hottest_budget(const std::vector<HeatBudget>& budgets, std::size_t step) {
  for (const HeatBudget& budget : budgets) {
    if (budget.step == step && budget.kind == "hottest" && budget.place == "conductor") {
      return &budget;
    }
  }
  return nullptr;
}

std::size_t hottest_step(const std::vector<HeatBudget>& budgets) {
  const HeatBudget* hottest = nullptr;
  for (const HeatBudget& budget : budgets) {
    if (hottest == nullptr || budget.conductor > hottest->conductor) {
      hottest = &budget;
    }
  }
  return hottest == nullptr ? 0 : hottest->step;
}

std::string budget_text(const HeatBudget& budget) {
  if (!(budget.comes_in() > 0.0)) {
    return "No heat comes in.";
  }
  return fmt::format("Of {} W/m, {}; {}.", figures(budget.comes_in(), 2), shares_text(budget, 1.0),
                     shares_text(budget, -1.0));
}

std::string why_text(const HeatBudget& budget, const std::vector<HeatBudget>& budgets) {
  std::string text = "Nothing is made there";
  const double here = flow_of(budget, made);
  if (const auto elsewhere = made_elsewhere(budgets, budget.step); elsewhere && *elsewhere > 0.0) {
    const double times = here / *elsewhere;
    text = std::abs(times - 1.0) < 0.05
               ? "About as much is made there as in the middle of most pieces"
               : fmt::format("{} times as much is made there as in the middle of most pieces",
                             figures(times, 2));
  }
  const auto add = [&](const std::string& more) { text += "; " + more; };
  if (!budget.around.empty()) {
    add("heat passes " + budget.around + " on its way out");
  }
  if (!budget.body.empty()) {
    add(fmt::format("heat {} {}", flow_of(budget, beside) > 0.0 ? "comes from" : "goes into",
                    budget.body));
  }
  const double along = flow_of(budget, along_the_wire);
  if (std::abs(along) > matters_from * budget.comes_in()) {
    add(along > 0.0 ? "warmer wire on one side or both brings heat"
                    : "cooler wire on one side or both takes heat away");
  }
  return text + ".";
}

std::string place_text(const HeatBudget& budget) {
  return budget.kind == "piece" ? budget.place : budget.kind + " " + budget.place;
}

}  // namespace ampstair::post::checks
