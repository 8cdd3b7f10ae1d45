// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <utility>

#include "scenario/building.hpp"
#include "scenario/load_table.hpp"

namespace ampstair::scenario {

namespace {

using diagnostics::ProblemList;
using quantities::Dimension;

constexpr const char* step_example =
    "{hold: 14 A, for: 22 min}, {volts: 2 V, for: 22 min} or "
    "{rest: 10 min}";

/// What says what a step asks for: one of them has to be there.
struct Ask {
  const char* key;
  bool present;
};
std::vector<Ask> asks_of(const StepSheet& sheet) {
  return {{"hold", sheet.hold.present()},
          {"volts", sheet.volts.present()},
          {"rest", sheet.rest.present()},
          {"ramp_to", sheet.ramp_to.present()},
          {"ramp_volts_to", sheet.ramp_volts_to.present()},
          {"load", sheet.load.present()}};
}

bool check_kind(const StepSheet& sheet, ProblemList& problems) {
  const auto asks = asks_of(sheet);
  const auto kinds =
      std::count_if(asks.begin(), asks.end(), [](const Ask& ask) { return ask.present; });
  if (kinds == 0 && problems.has_errors()) {
    return false;  // the one that stood there may have been at fault itself
  }
  if (kinds != 1) {
    problems.error("E142", sheet.place,
                   fmt::format("a step needs exactly one of 'hold', 'volts', 'rest', 'ramp_to', "
                               "'ramp_volts_to', 'load' and 'cycle'; this one has {}.",
                               kinds == 0 ? "none" : "more"),
                   std::string("write ") + step_example);
    return false;
  }
  return true;
}

void check_time(const StepSheet& sheet, ProblemList& problems) {
  const bool held = sheet.hold.present() || sheet.volts.present();
  const bool by_rule = held && sheet.until.present();
  const auto& time = by_rule ? sheet.at_most : sheet.lasts;
  const auto& other = by_rule ? sheet.lasts : sheet.at_most;
  if (sheet.rest.present() && (sheet.lasts.present() || sheet.at_most.present())) {
    problems.error("E142", sheet.lasts.present() ? sheet.lasts.place : sheet.at_most.place,
                   fmt::format("'rest' holds the time itself; '{}' does not belong "
                               "beside it.",
                               sheet.lasts.present() ? "for" : "at_most"),
                   "write {rest: 10 min}");
  } else if (!sheet.rest.present() && other.present()) {
    problems.error("E147", other.place,
                   by_rule ? "a step that ends by a rule has 'at_most' in place of 'for'."
                           : "'at_most' belongs to a held step with 'until'.",
                   "write  until: settled 1 K/h, at_most: 8 h   or   for: 22 min");
  } else if (by_rule && !time.present() && !problems.has_errors()) {
    problems.error("E147", sheet.until.place,
                   "a step that ends by a rule needs 'at_most': the rule may never hold.",
                   "add  at_most: 8 h");
  } else if (!sheet.rest.present() && !sheet.load.present() && !time.present() &&
             !problems.has_errors()) {
    problems.error("E143", sheet.place, "this step does not say how long it lasts.",
                   "add  for: 22 min");
  }
}

/// Keys that only some steps have.
void check_company(const StepSheet& sheet, ProblemList& problems) {
  const bool moves =
      sheet.ramp_to.present() || sheet.ramp_volts_to.present() || sheet.load.present();
  if (moves && sheet.until.present()) {
    problems.error("E148", sheet.until.place,
                   "'until' needs a level that is held; this step's moves.",
                   "ramp first, then hold in a step of its own with 'until'");
  }
  if (!sheet.load.present() && sheet.between.present()) {
    problems.error("E148", sheet.between.place, "'between' belongs to a 'load'.",
                   "leave it out, or give the load's file");
  }
}

void check_mode(const char* what, bool volts, const diagnostics::Place& place,
                const sheet::Text& mode, ProblemList& problems) {
  if (mode.present() && volts == (mode.value == "current")) {
    problems.error("E144", place,
                   fmt::format("this step {} a {}, but the supply is in {} mode.", what,
                               volts ? "voltage" : "current", mode.value),
                   volts ? "write  hold: <amperes>, or set supply mode: voltage"
                         : "write  volts: <volts>, or set supply mode: current");
  }
}

double end_level(const std::vector<Step>& staircase) {
  if (staircase.empty() || staircase.back().kind == Step::Kind::rest) {
    return 0.0;
  }
  const Step& step = staircase.back();
  return step.legs.empty() ? step.level : step.legs.back().level_at(step.duration);
}

/// A step as read, before it is known what comes before it.
struct Planned {
  Step step;
  bool ramps = false;
};

class StaircaseBuilder {
 public:
  StaircaseBuilder(const sheet::Text& mode, const Building& building)
      : mode_(mode), building_(building) {}

  void add(const StaircaseEntrySheet& entry, const std::string& path) {
    if (entry.cycle.empty()) {
      if (entry.times.present()) {
        building_.problems.error("E148", entry.times.place, "'times' belongs to a 'cycle'.",
                                 "write  {cycle: [{hold: 22 A, for: 10 min}, {rest: 10 min}], "
                                 "times: 6}");
      }
      append(planned(entry, path));
      return;
    }
    add_cycle(entry, path);
  }

  [[nodiscard]] std::vector<Step> taken() { return std::move(staircase_); }

 private:
  void add_cycle(const StaircaseEntrySheet& entry, const std::string& path) {
    const auto asks = asks_of(entry);
    const auto beside =
        std::find_if(asks.begin(), asks.end(), [](auto& ask) { return ask.present; });
    if (beside != asks.end() || entry.lasts.present() || entry.until.present()) {
      building_.problems.error(
          "E149", entry.place,
          fmt::format("'{}' does not belong beside 'cycle'.", beside != asks.end()    ? beside->key
                                                              : entry.lasts.present() ? "for"
                                                                                      : "until"),
          "put it into a step inside the cycle, or into a step of its own");
      return;
    }
    if (!entry.times.present()) {
      if (!building_.problems.has_errors()) {
        building_.problems.error("E149", entry.place, "a cycle needs 'times'.", "add  times: 6");
      }
      return;
    }
    const double times = building_.values.use(path + "/times", entry.times, Dimension::count);
    std::vector<Planned> round;
    for (std::size_t i = 0; i < entry.cycle.size(); ++i) {
      round.push_back(planned(entry.cycle[i], fmt::format("{}/cycle/{}", path, i + 1)));
    }
    for (long k = 0; k < std::lround(times); ++k) {
      for (const auto& one : round) {
        append(one);
      }
    }
  }

  void append(Planned planned) {
    Step& step = planned.step;
    if (planned.ramps) {
      const double from = end_level(staircase_);
      const double to = step.level;
      step.level = std::max(from, to);
      step.legs = {{0.0, from, step.duration > 0.0 ? (to - from) / step.duration : 0.0}};
    }
    staircase_.push_back(std::move(step));
  }

  Planned planned(const StepSheet& sheet, const std::string& path) {
    if (!check_kind(sheet, building_.problems)) {
      return {};
    }
    check_time(sheet, building_.problems);
    check_company(sheet, building_.problems);
    Planned planned;
    Step& step = planned.step;
    step.rejoined = sheet.rejoined;
    step.until = watch::rule_called(sheet.until.value);
    if (sheet.load.present()) {
      follow(sheet, path, step);
      return planned;
    }
    const bool volts = sheet.volts.present() || sheet.ramp_volts_to.present();
    planned.ramps = sheet.ramp_to.present() || sheet.ramp_volts_to.present();
    const auto use = [&](const char* key, const sheet::Number& number, Dimension dimension) {
      return number.present() ? building_.values.use(path + key, number, dimension) : 0.0;
    };
    if (sheet.rest.present()) {
      step.kind = Step::Kind::rest;
      step.duration = use("/rest", sheet.rest, Dimension::duration);
      return planned;
    }
    const auto& level = sheet.hold.present()      ? sheet.hold
                        : sheet.volts.present()   ? sheet.volts
                        : sheet.ramp_to.present() ? sheet.ramp_to
                                                  : sheet.ramp_volts_to;
    check_mode(planned.ramps ? "ramps" : "holds", volts, level.place, mode_, building_.problems);
    step.kind = volts ? Step::Kind::hold_voltage : Step::Kind::hold_current;
    const char* key = sheet.hold.present()      ? "/hold"
                      : sheet.volts.present()   ? "/volts"
                      : sheet.ramp_to.present() ? "/ramp_to"
                                                : "/ramp_volts_to";
    step.level = use(key, level, volts ? Dimension::voltage : Dimension::current);
    step.duration = use("/for", sheet.lasts, Dimension::duration) +
                    use("/at_most", sheet.at_most, Dimension::duration);
    return planned;
  }

  /// A step that follows a file.
  void follow(const StepSheet& sheet, const std::string& path, Step& step) {
    std::filesystem::path file = sheet.load.value;
    if (file.is_relative()) {
      file = std::filesystem::path(sheet.load.place.file).parent_path() / file;
    }
    auto table = read_load_table(file, sheet.load.place, building_.problems);
    if (!table) {
      return;
    }
    building_.values.keep({sheet.load.value, std::move(table->text)});
    check_mode("follows", table->volts, sheet.load.place, mode_, building_.problems);
    step.kind = table->volts ? Step::Kind::hold_voltage : Step::Kind::hold_current;
    step.load = sheet.load.value;
    step.duration = sheet.lasts.present()
                        ? building_.values.use(path + "/for", sheet.lasts, Dimension::duration)
                        : table->time.back();
    step.legs = legs_of(*table, sheet.between.value == "linear", step.duration);
    step.level = *std::max_element(table->level.begin(), table->level.end());
    building_.values.use(
        path + "/load", step.level, table->volts ? Dimension::voltage : Dimension::current,
        fmt::format("highest of {} rows of {}", table->time.size(), step.load), false);
  }

  const sheet::Text& mode_;
  const Building& building_;
  std::vector<Step> staircase_;
};

}  // namespace

std::vector<Step> build_staircase(const RunSheet& sheet, const Building& building) {
  const sheet::Text mode = sheet.supply ? sheet.supply->mode : sheet::Text{};
  StaircaseBuilder builder(mode, building);
  for (std::size_t i = 0; i < sheet.staircase.size(); ++i) {
    builder.add(sheet.staircase[i], fmt::format("staircase/{}", i + 1));
  }
  return builder.taken();
}

}  // namespace ampstair::scenario
