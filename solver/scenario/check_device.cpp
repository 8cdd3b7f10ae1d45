// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "scenario/building.hpp"
#include "scenario/rough_loss.hpp"

namespace ampstair::scenario {

void check_device(const RunSheet& sheet, diagnostics::ProblemList& problems) {
  if (!sheet.device) {
    return;
  }
  const auto& openings = sheet.device->must_open;
  for (std::size_t i = 0; i + 1 < openings.size(); ++i) {
    const auto& now = openings[i];
    const auto& next = openings[i + 1];
    if (!now.times.present() || !next.times.present() || !now.within.present() ||
        !next.within.present()) {
      continue;
    }
    if (next.times.best <= now.times.best || next.within.best > now.within.best) {
      problems.error(
          "E195", next.times.place,
          fmt::format("'must_open' has to rise in 'times' and not in 'within'; {} within "
                      "{} comes after {} within {}.",
                      next.times.text, next.within.text, now.times.text, now.within.text),
          "order the entries from the lowest current to the highest");
    }
  }
  const auto& hold = sheet.device->must_hold;
  if (hold.present() && !openings.empty() && openings.front().times.present() &&
      hold.best >= openings.front().times.best) {
    problems.error("E196", hold.place,
                   fmt::format("the device cannot both hold {} times its rating for good and open "
                               "at {} times.",
                               hold.text, openings.front().times.text),
                   "'must_hold' lies below the first 'times' of 'must_open'");
  }
}

void check_device_load(const RunSheet& sheet, const Scenario& scenario,
                       diagnostics::ProblemList& problems) {
  if (!scenario.device || scenario.surroundings.front().air.empty()) {
    return;
  }
  const double air = scenario.surroundings.front().air.front().temperature;
  const double loop = wire_resistance(scenario, air) + other_resistance(scenario);
  double highest = 0.0;
  for (const auto& step : scenario.staircase) {
    const double most =
        step.kind == Step::Kind::hold_voltage ? step.level / std::max(loop, 1e-12) : step.level;
    highest = std::max(highest, most);
  }
  if (highest < scenario.device->rating) {
    problems.warning("W263", sheet.device->rating.place,
                     fmt::format("the device's rating ({}) is above every current of the staircase "
                                 "(at most {:.4g} A); nothing can be said about its opening.",
                                 sheet.device->rating.text, highest),
                     "check the rating, or raise the staircase");
  }
}

}  // namespace ampstair::scenario
