// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "scenario/building.hpp"

namespace ampstair::scenario {

namespace {

using quantities::Dimension;

constexpr const char* step_example =
    "{hold: 14 A, for: 22 min}, {volts: 2 V, for: 22 min} or "
    "{rest: 10 min}";

/// A step has one of hold, volts and rest; the first two need a time.
bool check_step(const StepSheet& sheet, diagnostics::ProblemList& problems) {
  const int kinds =
      int{sheet.hold.present()} + int{sheet.volts.present()} + int{sheet.rest.present()};
  if (kinds == 0 && problems.has_errors()) {
    return false;  // the one that stood there may have been at fault itself
  }
  if (kinds != 1) {
    problems.error("E142", sheet.place,
                   fmt::format("a step needs exactly one of 'hold', 'volts' and 'rest'; this one "
                               "has {}.",
                               kinds == 0 ? "none" : "more"),
                   std::string("write ") + step_example);
    return false;
  }
  if (sheet.rest.present() && sheet.lasts.present()) {
    problems.error("E142", sheet.lasts.place,
                   "'rest' holds the time itself; 'for' does not belong "
                   "beside it.",
                   "write {rest: 10 min}");
  } else if (!sheet.rest.present() && !sheet.lasts.present() && !problems.has_errors()) {
    problems.error("E143", sheet.place, "this step does not say how long it lasts.",
                   "add  for: 22 min");
  }
  return true;
}

void check_mode(const StepSheet& sheet, const sheet::Text& mode,
                diagnostics::ProblemList& problems) {
  const bool amperes = mode.value == "current";
  const auto& wrong = amperes ? sheet.volts : sheet.hold;
  if (mode.present() && wrong.present()) {
    problems.error("E144", wrong.place,
                   fmt::format("this step holds a {}, but the supply is in {} mode.",
                               amperes ? "voltage" : "current", mode.value),
                   amperes ? "write  hold: <amperes>, or set supply mode: voltage"
                           : "write  volts: <volts>, or set supply mode: current");
  }
}

Step build_step(const StepSheet& sheet, const std::string& path, ValueLog& values) {
  Step step;
  if (sheet.rest.present()) {
    step.kind = Step::Kind::rest;
    step.duration = values.use(path + "/rest", sheet.rest, Dimension::duration);
    return step;
  }
  if (sheet.volts.present()) {
    step.kind = Step::Kind::hold_voltage;
    step.level = values.use(path + "/volts", sheet.volts, Dimension::voltage);
  } else {
    step.level = values.use(path + "/hold", sheet.hold, Dimension::current);
  }
  step.duration = values.use(path + "/for", sheet.lasts, Dimension::duration);
  return step;
}

}  // namespace

Supply build_supply(const SupplySheet& sheet, const Building& building) {
  Supply supply;
  supply.mode = sheet.mode.value == "voltage" ? Supply::Mode::voltage : Supply::Mode::current;
  if (sheet.voltage_limit.present()) {
    supply.voltage_limit =
        building.values.use("supply/voltage_limit", sheet.voltage_limit, Dimension::voltage);
  }
  if (sheet.leads) {
    const auto& leads = *sheet.leads;
    const std::string path = "supply/leads";
    supply.lead.length = building.values.use(path + "/length", leads.length, Dimension::length);
    supply.lead.area = building.values.use(path + "/area", leads.area, Dimension::area);
    supply.lead.covering =
        building.values.use(path + "/covering", leads.covering, Dimension::length);
    supply.lead.metal = building.material(leads.material, path + "/material", "metal");
    if (supply.lead.metal && supply.lead.metal->resistivity.value.empty()) {
      const auto& choice = leads.material;
      building.problems.error("E152", choice.mapping ? choice.mapping->place : choice.text.place,
                              "the leads' metal has no resistivity.", "choose copper");
    }
  }
  return supply;
}

std::vector<Step> build_staircase(const RunSheet& sheet, const Building& building) {
  const sheet::Text mode = sheet.supply ? sheet.supply->mode : sheet::Text{};
  std::vector<Step> staircase;
  for (std::size_t i = 0; i < sheet.staircase.size(); ++i) {
    const auto& step = sheet.staircase[i];
    if (check_step(step, building.problems)) {
      check_mode(step, mode, building.problems);
      staircase.push_back(build_step(step, fmt::format("staircase/{}", i + 1), building.values));
    }
  }
  return staircase;
}

}  // namespace ampstair::scenario
