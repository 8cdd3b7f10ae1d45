// SPDX-License-Identifier: MIT
#include "verbs/ledger.hpp"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <ostream>
#include <string>

#include "quantities/parse.hpp"
#include "scenario/describe.hpp"
#include "scenario/rough_loss.hpp"
#include "verbs/stability.hpp"

namespace ampstair::verbs {

namespace {

using quantities::Dimension;
using scenario::Piece;
using scenario::Scenario;
using scenario::Step;

/// How the numbers below one path are sourced.
struct SourceMarks {
  int stated = 0;     ///< given, with a source
  int unstated = 0;   ///< given, without
  int defaulted = 0;  ///< not given
};

SourceMarks marks_below(const Scenario& scenario, const std::string& path) {
  SourceMarks marks;
  for (const auto& value : scenario.values) {
    if (value.path.rfind(path + "/", 0) != 0) {
      continue;
    }
    if (value.by_default) {
      ++marks.defaulted;
    } else if (value.source == "no source given") {
      ++marks.unstated;
    } else {
      ++marks.stated;
    }
  }
  return marks;
}

std::size_t widest_name(const Scenario& scenario) {
  std::size_t widest = 5;
  for (const auto& piece : scenario.run) {
    widest = std::max(widest, piece.name.size());
  }
  return widest;
}

void print_pieces(std::ostream& out, const Scenario& scenario) {
  const auto width = widest_name(scenario);
  fmt::print(out, "  {:<{}}  {:<7}  {:>7}  {:>7}  {:>6} {:>7} {:>7}  {}\n", "piece", width, "kind",
             "from m", "to m", "source", "without", "default", "surroundings");
  for (const auto& piece : scenario.run) {
    const auto marks = marks_below(scenario, "run/" + piece.name);
    const auto own = scenario::describe_own_surroundings(scenario, piece);
    fmt::print(out, "  {:<{}}  {:<7}  {:>7.3f}  {:>7.3f}  {:>6} {:>7} {:>7}  {}\n", piece.name,
               width, scenario::kind_word(piece), piece.begin, piece.end(), marks.stated,
               marks.unstated, marks.defaulted, own.empty() ? "as the run" : own);
  }
  fmt::print(out,
             "  sum {:.2f} m in {} pieces; source, without, default: numbers of the piece given "
             "with a source,\n  given without one, and taken from the program's defaults (see "
             "--full)\n",
             scenario.length(), scenario.run.size());
}

std::string level_of(const Step& step) {
  switch (step.kind) {
    case Step::Kind::hold_current:
      return quantities::format(step.level, Dimension::current);
    case Step::Kind::hold_voltage:
      return quantities::format(step.level, Dimension::voltage);
    case Step::Kind::rest:
      break;
  }
  return "rest";
}

/// What a step does beside holding its level.
std::string manner_of(const Step& step) {
  std::string manner;
  if (!step.load.empty()) {
    manner = fmt::format("highest of {} legs from {}", step.legs.size(), step.load);
  } else if (!step.legs.empty()) {
    const auto& leg = step.legs.front();
    const auto dimension =
        step.kind == Step::Kind::hold_voltage ? Dimension::voltage : Dimension::current;
    manner = fmt::format("evenly from {} to {}", quantities::format(leg.level, dimension),
                         quantities::format(leg.level_at(step.duration), dimension));
  }
  if (step.until) {
    manner +=
        fmt::format("{}at most; until {}", manner.empty() ? "" : "; ", watch::word_of(*step.until));
  }
  if (step.rejoined) {
    manner += manner.empty() ? "rejoined" : "; rejoined";
  }
  return manner;
}

void print_steps(std::ostream& out, const Scenario& scenario) {
  fmt::print(out, "  {:>4}  {:>10}  {:>9}  {:>9}\n", "step", "held", "from min", "to min");
  double begin = 0.0;
  int number = 0;
  for (const auto& step : scenario.staircase) {
    const auto manner = manner_of(step);
    fmt::print(out, "  {:>4}  {:>10}  {:>9.1f}  {:>9.1f}{}{}\n", ++number, level_of(step),
               begin / 60.0, (begin + step.duration) / 60.0, manner.empty() ? "" : "  ", manner);
    begin += step.duration;
  }
}

void print_loop(std::ostream& out, const Scenario& scenario) {
  const double air = scenario.start_temperature;
  const double wire = scenario::wire_resistance(scenario, air);
  const double other = scenario::other_resistance(scenario);
  fmt::print(out, "  loop at {}: {:.4g} mohm, of it the wire {:.4g} mohm\n",
             quantities::format(air, Dimension::temperature), 1e3 * (wire + other), 1e3 * wire);
}

}  // namespace

void print_ledger(std::ostream& out, const Scenario& scenario) {
  fmt::print(out, "{}\nRun ledger, {}; {}\n\n", scenario.title, scenario.arrangement,
             scenario::describe(scenario.surroundings.front()));
  print_pieces(out, scenario);
  out << '\n';
  print_steps(out, scenario);
  print_loop(out, scenario);
  print_stability(out, scenario);
}

}  // namespace ampstair::verbs
