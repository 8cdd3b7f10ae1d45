// SPDX-License-Identifier: MIT
// Histories of the air and the walls.
#include <fmt/format.h>

#include <filesystem>

#include "scenario/building.hpp"
#include "scenario/column_file.hpp"

namespace ampstair::scenario {

namespace {

using quantities::Dimension;

/// The first entry holds from the start, each other comes after the one before and may be come to
/// along a straight line.
template <class Sheet, class Step>
void check_order(const Sheet& entry, const char* of, const std::vector<Step>& before,
                 diagnostics::ProblemList& problems) {
  if (before.empty()) {
    if (entry.at.best > 0.0) {
      problems.error("E165", entry.at.place,
                     fmt::format("the first entry of '{}' must hold from the start.", of),
                     "leave out 'at' there, or write  at: 0 min");
    }
    if (!entry.temperature.present() && !problems.has_errors()) {
      problems.error("E122", entry.place,
                     fmt::format("the first entry of '{}' gives no temperature.", of),
                     "add  temperature: 20 degC");
    }
    if (entry.ramp) {
      problems.error("E197", entry.place,
                     fmt::format("the first entry of '{}' has none before it to ramp from.", of),
                     "leave out 'ramp' there; it belongs to the entry that is come to");
    }
  } else if (entry.at.present() && entry.at.best <= before.back().from_time) {
    problems.error("E165", entry.at.place,
                   fmt::format("entries of '{}' must follow each other in time; this one does not "
                               "come after the one before.",
                               of),
                   "give every entry its own, later 'at'");
  }
}

double rate(double from, double to, double begin, double end) {
  return end > begin ? (to - from) / (end - begin) : 0.0;
}

/// Makes an entry lead on to the next along a straight line.
void lead_on(AirStep& step, const AirStep& next) {
  step.temperature_rate = rate(step.temperature, next.temperature, step.from_time, next.from_time);
  step.speed_rate = rate(step.speed, next.speed, step.from_time, next.from_time);
}
void lead_on(WallStep& step, const WallStep& next) {
  step.temperature_rate = rate(step.temperature, next.temperature, step.from_time, next.from_time);
}

std::vector<AirStep> read_air(const AirSheet& entry, const std::string& path,
                              const Building& building) {
  if (entry.at.given() || entry.temperature.given() || entry.speed.given() || entry.ramp) {
    building.problems.error("E198", entry.csv.place,
                            "an entry with 'csv' takes its times, temperatures and speeds from "
                            "there.",
                            "leave out everything beside 'csv'");
    return {};
  }
  const auto beside = std::filesystem::path(entry.csv.place.file).parent_path();
  const auto file = read_columns(beside / entry.csv.value,
                                 {{"time", Dimension::duration, {0.0, 1e9}, true},
                                  {"temperature", Dimension::temperature, air_temperatures, true},
                                  {"speed", Dimension::speed, {0.0, 50.0}, false}},
                                 entry.csv.place, building.problems);
  std::vector<AirStep> air;
  if (!file) {
    return air;
  }
  for (std::size_t i = 0; i < file->column[0].size(); ++i) {
    air.push_back({file->column[0][i], file->column[1][i],
                   file->column[2].empty() ? 0.0 : file->column[2][i]});
    if (i > 0) {
      lead_on(air[i - 1], air[i]);
    }
  }
  building.values.use(
      path + "/csv", static_cast<double>(air.size()), Dimension::count,
      fmt::format("rows of {}, whose text is kept with the record", entry.csv.value), false);
  building.values.keep({entry.csv.value, file->text});
  return air;
}

}  // namespace

std::vector<AirStep> build_air(const std::vector<AirSheet>& entries, const std::string& path,
                               const Building& building) {
  std::vector<AirStep> air;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const auto& entry = entries[i];
    const std::string here = fmt::format("{}/air/{}", path, i + 1);
    if (entry.csv.present()) {
      if (entries.size() > 1) {
        building.problems.error("E198", entry.csv.place,
                                "a history from a file is the whole history.",
                                "write  air: {csv: " + entry.csv.value + "}  and nothing else");
      }
      return read_air(entry, here, building);
    }
    check_order(entry, "air", air, building.problems);
    AirStep step;
    if (!air.empty()) {
      step.temperature = air.back().temperature;
      step.speed = air.back().speed;
    }
    step.from_time = building.values.use(here + "/at", entry.at, Dimension::duration);
    if (entry.temperature.present()) {
      step.temperature =
          building.values.use(here + "/temperature", entry.temperature, Dimension::temperature);
    }
    if (entry.speed.present()) {
      step.speed = building.values.use(here + "/speed", entry.speed, Dimension::speed);
    } else if (air.empty()) {
      building.values.use(here + "/speed", 0.0, Dimension::speed, "still air is assumed", true);
    }
    if (entry.ramp && !air.empty()) {
      lead_on(air.back(), step);
    }
    air.push_back(step);
  }
  return air;
}

std::vector<WallStep> build_walls(const std::vector<WallSheet>& entries, const std::string& path,
                                  const Building& building) {
  std::vector<WallStep> walls;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const auto& entry = entries[i];
    check_order(entry, "walls", walls, building.problems);
    // One temperature for good keeps its short name.
    const std::string here =
        entries.size() == 1 ? path + "/walls" : fmt::format("{}/walls/{}", path, i + 1);
    WallStep step;
    if (entries.size() > 1) {
      step.from_time = building.values.use(here + "/at", entry.at, Dimension::duration);
    }
    step.temperature = building.values.use(entries.size() == 1 ? here : here + "/temperature",
                                           entry.temperature, Dimension::temperature);
    if (entry.ramp && !walls.empty()) {
      lead_on(walls.back(), step);
    }
    walls.push_back(step);
  }
  return walls;
}

}  // namespace ampstair::scenario
