// SPDX-License-Identifier: MIT
#include "verbs/drive_tables.hpp"

#include <cmath>
#include <cstdint>
#include <limits>
#include <string>
#include <vector>

namespace ampstair::verbs {

namespace {

using scenario::Scenario;
using scenario::Step;
using Numbers = std::vector<double>;
using Indices = std::vector<std::int64_t>;
using Texts = std::vector<std::string>;

std::string kind_word(const Step& step) {
  switch (step.kind) {
    case Step::Kind::hold_current:
      return "hold_current";
    case Step::Kind::hold_voltage:
      return "hold_voltage";
    case Step::Kind::rest:
      break;
  }
  return "rest";
}

std::string course_word(const Step& step) {
  return !step.load.empty() ? "load" : step.legs.empty() ? "held" : "ramp";
}

}  // namespace

history::Table steps_table(const Scenario& scenario) {
  Numbers begin;
  Numbers end;
  Numbers level;
  Texts kind;
  Texts course;
  Texts until;
  Indices rejoined;
  for (const Step& step : scenario.staircase) {
    begin.push_back(end.empty() ? 0.0 : end.back());
    end.push_back(begin.back() + step.duration);
    level.push_back(step.level);
    kind.push_back(kind_word(step));
    course.push_back(course_word(step));
    until.emplace_back(step.until ? watch::word_of(*step.until) : "");
    rejoined.push_back(step.rejoined ? 1 : 0);
  }
  return {
      "steps",
      "steps of the staircase, in order",
      {{{"kind", "what the supply is told", ""}, kind},
       {{"level", "A held or V fed, by the step's kind; the highest where it moves", "1"}, level},
       {{"begin", "start of the step as planned", "s"}, begin},
       {{"end", "end of the step as planned, the latest where it ends by a rule", "s"}, end},
       {{"course", "held, ramp or load", ""}, course},
       {{"until", "rule that ends the step when it holds", ""}, until},
       {{"rejoined", "1: a parted conductor is whole again from here on", "1"}, rejoined}}};
}

history::Table legs_table(const Scenario& scenario) {
  Indices step;
  Numbers begin;
  Numbers level;
  Numbers slope;
  Texts file;
  for (std::size_t s = 0; s < scenario.staircase.size(); ++s) {
    for (const auto& leg : scenario.staircase[s].legs) {
      step.push_back(static_cast<std::int64_t>(s));
      begin.push_back(leg.from);
      level.push_back(leg.level);
      slope.push_back(leg.slope);
      file.push_back(scenario.staircase[s].load);
    }
  }
  return {"legs",
          "how the level moves in steps that do not hold it",
          {{{"step", "row of the table steps", "1"}, step},
           {{"begin", "start of the leg, from the start of its step", "s"}, begin},
           {{"level", "A or V there, by the step's kind", "1"}, level},
           {{"slope", "change of the level from there on", "s-1"}, slope},
           {{"file", "load file it was read from", ""}, file}}};
}

history::Table device_table(const Scenario& scenario) {
  Texts kind;
  Numbers rating;
  Numbers must_hold;
  Texts source;
  if (scenario.device) {
    kind.push_back(scenario.device->kind);
    rating.push_back(scenario.device->rating);
    must_hold.push_back(
        scenario.device->must_hold.value_or(std::numeric_limits<double>::quiet_NaN()));
    source.push_back(scenario.device->from);
  }
  return {"device",
          "overcurrent device of the circuit, its stated limits; read by no march",
          {{{"kind", "what it is", ""}, kind},
           {{"rating", "rated current", "A"}, rating},
           {{"must_hold", "multiple of the rating it has to carry for good", "1"}, must_hold},
           {{"source", "where the limits came from", ""}, source}}};
}

history::Table openings_table(const Scenario& scenario) {
  Numbers times;
  Numbers within;
  if (scenario.device) {
    for (const auto& opening : scenario.device->must_open) {
      times.push_back(opening.times);
      within.push_back(opening.within);
    }
  }
  return {"openings",
          "currents at which the device has to open, ascending",
          {{{"times", "multiple of the rating", "1"}, times},
           {{"within", "latest time to open", "s"}, within}}};
}

}  // namespace ampstair::verbs
