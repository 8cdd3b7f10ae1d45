// SPDX-License-Identifier: MIT
#include "checks/touch_readings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <limits>
#include <string>

#include "checks/amounts.hpp"
#include "checks/columns.hpp"
#include "checks/drive.hpp"
#include "instruments/touch.hpp"

namespace ampstair::post::checks {

namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

instruments::Touched::Kind kind_of(const std::string& part) {
  using Kind = instruments::Touched::Kind;
  return part == "conductor" || part == "metal" ? Kind::bare_metal
         : part == "ceramic"                    ? Kind::ceramic
         : part == "wood"                       ? Kind::wood
                                                : Kind::plastic;
}

/// Old coverings do not keep a voltage off: whatever is on the wire is taken as live.
bool on_the_wire(const std::string& part) {
  return part != "ceramic" && part != "wood";
}

std::string live_words(const std::optional<double>& volts) {
  return volts
             ? fmt::format("do not touch: a live conductor at up to {} V, above extra-low voltage",
                           figures(*volts, 1))
             : "do not touch: a live conductor, and nothing says that its supply is extra-low "
               "voltage (voltage_limit)";
}

std::string touch_words(instruments::TouchState state) {
  switch (state) {
    case instruments::TouchState::below:
      return "below the burn threshold for that contact (ISO 13732-1, from memory); no invitation "
             "to "
             "touch";
    case instruments::TouchState::in_band:
      return "within the burn threshold's band: do not touch";
    case instruments::TouchState::above:
      return "above the burn threshold: do not touch";
    case instruments::TouchState::outside_scope:
      break;
  }
  return "shorter than the standard's contacts: cannot say";
}

}  // namespace

std::optional<double> highest_supply_voltage(const Histories& histories) {
  const Columns values(histories, "values");
  if (values.has("path")) {
    const auto path = values.texts("path");
    const auto limit = std::find(path.begin(), path.end(), "supply/voltage_limit");
    if (limit != path.end()) {
      return values.numbers("value").at(static_cast<std::size_t>(limit - path.begin()));
    }
  }
  double highest = 0.0;
  const Drive drive(histories);
  for (const auto& step : drive.steps()) {
    if (step.kind == "hold_current") {
      return std::nullopt;
    }
    highest = std::max(highest, step.kind == "hold_voltage" ? step.level : 0.0);
  }
  return highest;
}

std::vector<InstrumentReading> touch_readings(const Histories& histories,
                                              const std::vector<StepEnd>& ends) {
  std::vector<InstrumentReading> all;
  const Columns columns(histories, "touch");
  if (!columns.has("name")) {
    return all;
  }
  const auto name = columns.texts("name");
  const auto part = columns.texts("part");
  const auto history = columns.texts("history");
  const auto position = columns.numbers("position");
  const auto effusivity = columns.numbers("effusivity");
  const auto contact = columns.numbers("contact");
  const auto volts = highest_supply_voltage(histories);
  const bool extra_low = volts && *volts <= extra_low_voltage;
  using Of = InstrumentReading::Of;
  for (std::size_t i = 0; i < name.size(); ++i) {
    for (const StepEnd& end : ends) {
      if (part[i].empty()) {
        all.push_back(
            {"hand", name[i], end.number, Of::temperature, none, none, nothing_faces_the_air});
        continue;
      }
      const double kelvin = kelvin_near(histories, history[i], position[i], end.row);
      all.push_back(
          {"hand", name[i], end.number, Of::temperature, kelvin,
           instruments::skin_contact(kelvin, effusivity[i]),
           on_the_wire(part[i]) && !extra_low
               ? live_words(volts)
               : touch_words(instruments::judge_touch(kind_of(part[i]), kelvin, contact[i]))});
    }
  }
  return all;
}

}  // namespace ampstair::post::checks
