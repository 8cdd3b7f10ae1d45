// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "scenario/building.hpp"

namespace ampstair::scenario {

namespace {

/// Keys of `around` that only mean something with or without a fill.
void check_fill(const AnyPieceSheet& any, diagnostics::ProblemList& problems) {
  const auto& around = *base(any).around;
  if (around.fill.present() && !std::holds_alternative<OpenSheet>(any)) {
    problems.error("E183", around.place,
                   fmt::format("'{}' is a {}; only an open piece can be buried by its "
                               "surroundings.",
                               base(any).name.value, base(any).word.value),
                   "bury an open piece beside it");
  }
  for (const auto* companion : {&around.to, &around.slab, &around.depth, &around.conductivity}) {
    if (companion->given() && !around.fill.present()) {
      problems.error("E171", companion->place, "this key means nothing without 'fill'.",
                     "add  fill: cellulose-loose, or leave it out");
    }
  }
  if (around.neighbour && !around.fill.present() && !around.bay.present()) {
    problems.warning("W265", around.neighbour->distance.place,
                     "in the open a wire beside this one is taken to change nothing.",
                     "bury the piece, or leave 'neighbour' out");
  }
}

/// What cannot be together with a bay.
void check_bay(const AnyPieceSheet& any, diagnostics::ProblemList& problems) {
  const auto& around = *base(any).around;
  if (!around.bay.present()) {
    return;
  }
  const bool has_length =
      !std::holds_alternative<LugSheet>(any) && !std::holds_alternative<CutEndSheet>(any);
  const bool buried = around.fill.present() || std::holds_alternative<FilledSheet>(any);
  if (!has_length || buried) {
    problems.error("E176", around.place,
                   fmt::format("'{}' cannot lie in a bay.", base(any).name.value),
                   buried ? "fill leaves no air to warm; leave out 'bay'"
                          : "put a piece with a length in the bay");
  }
  if (!around.walls.empty()) {
    problems.error("E177", around.walls.front().place,
                   "a bay has walls of its own, whose temperature is worked out.",
                   "leave out 'walls'");
  }
  if (around.bay.text.present() && (!around.air.empty() || around.film || around.neighbour)) {
    problems.error("E177", around.place, "what surrounds a bay stands where the bay is described.",
                   "leave 'bay' alone here");
  }
}

}  // namespace

std::size_t build_piece_surroundings(const AnyPieceSheet& any, const std::string& path,
                                     const Building& building, Scenario& scenario) {
  const auto& around = base(any).around;
  if (!around) {
    return 0;
  }
  check_fill(any, building.problems);
  check_bay(any, building.problems);
  if (around->bay.text.present()) {
    return bay_named(around->bay.text, scenario, building.problems).value_or(0);
  }
  const bool differs = !around->air.empty() || !around->walls.empty() ||
                       around->still_air.present() || around->convection.present() ||
                       around->altitude.present() || around->film || around->bay.present();
  if (!differs) {
    return 0;
  }
  scenario.surroundings.push_back(
      build_surroundings(*around, scenario.surroundings.front(), path + "/around", building));
  if (around->bay.mapping) {
    auto& outside = scenario.surroundings.back();
    scenario.bays.push_back(build_bay(*around->bay.mapping, around->neighbour, outside,
                                      path + "/around/bay", building));
    outside.bay = scenario.bays.size() - 1;
  }
  return scenario.surroundings.size() - 1;
}

}  // namespace ampstair::scenario
