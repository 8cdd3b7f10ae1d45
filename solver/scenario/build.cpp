// SPDX-License-Identifier: MIT
#include "scenario/build.hpp"

#include <fmt/format.h>

#include "scenario/arrangement.hpp"
#include "scenario/building.hpp"
#include "scenario/parts.hpp"

namespace ampstair::scenario {

namespace {

void check_sinks(const RunSheet& sheet, diagnostics::ProblemList& problems) {
  for (const auto& any : sheet.run) {
    const auto* lug = std::get_if<LugSheet>(&any);
    const bool has_leads = sheet.supply && sheet.supply->leads;
    if (lug != nullptr && lug->sinks_to.value == "supply-lead" && sheet.supply && !has_leads) {
      problems.error("E184", lug->sinks_to.place,
                     fmt::format("lug '{}' sinks to a supply lead, but the supply has no leads.",
                                 lug->name.value),
                     "add  leads: {length: 2.4 m, area: 16 mm2}  to supply");
    }
  }
}

void check_sheet(const RunSheet& sheet, diagnostics::ProblemList& problems) {
  check_names(sheet, problems);
  check_ends(sheet, problems);
  check_sinks(sheet, problems);
  check_rising(sheet, problems);
  check_study(sheet, problems);
  check_device(sheet, problems);
}

/// Whether spots can be placed: names and lengths are there and the ends are ends.
bool ends_are_sound(const RunSheet& sheet) {
  diagnostics::ProblemList of_ends;
  check_ends(sheet, of_ends);
  return of_ends.empty();
}

void place_spots(const RunSheet& sheet, const Building& building, Scenario& scenario) {
  const auto run = extents(sheet);
  if (run && ends_are_sound(sheet)) {
    check_instruments(sheet, *run, building.problems);
    scenario.probes = build_probes(sheet, *run, building);
    if (sheet.instruments && !building.problems.has_errors()) {
      scenario.instruments = build_instruments(
          *sheet.instruments, *run, scenario.surroundings.front().air.front().temperature);
    }
  }
}

void build_parts(const RunSheet& sheet, const Building& building, Scenario& scenario) {
  if (sheet.wire) {
    scenario.wire = build_wire(*sheet.wire, building);
  }
  scenario.surroundings.push_back(
      sheet.around ? build_surroundings(*sheet.around, "around", building) : Surroundings{});
  build_run(sheet, building, scenario);
  if (sheet.supply) {
    scenario.supply = build_supply(*sheet.supply, building);
  }
  scenario.staircase = build_staircase(sheet, building);
  scenario.device = build_device(sheet, building);
  scenario.watch = watch::items_of(sheet.watch, building.problems);
  if (sheet.output) {
    scenario.output = build_output(*sheet.output, building);
  }
  place_spots(sheet, building, scenario);
}

}  // namespace

Scenario build_scenario(const RunSheet& written, const materials::Library& library,
                        const std::string& arrangement, diagnostics::ProblemList& problems) {
  const RunSheet sheet = arranged(written, arrangement, problems);
  check_sheet(sheet, problems);
  Scenario scenario;
  scenario.title = sheet.title.value;
  scenario.arrangement = arrangement;
  if (sheet.beyond) {
    scenario.beyond = sheet.beyond->reason.value;
  }
  ValueLog values;
  build_parts(sheet, {library, problems, values}, scenario);
  if (!problems.has_errors()) {
    check_times(sheet, scenario, problems);
    check_supply(sheet, scenario, problems);
    check_device_load(sheet, scenario, problems);
    settle_grid(sheet, scenario, problems);
    scenario.start_temperature =
        values.use("start_temperature", scenario.surroundings.front().air.front().temperature,
                   quantities::Dimension::temperature, "the air's first temperature", true);
  }
  scenario.values = values.taken();
  scenario.files = values.files();
  return scenario;
}

}  // namespace ampstair::scenario
