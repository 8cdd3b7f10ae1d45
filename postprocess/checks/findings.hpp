// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "watch/item.hpp"
#include "watch/state.hpp"

namespace ampstair::post::checks {

/// A place along the run.
struct Spot {
  double position = 0.0;  ///< m from the start of the run
  std::string name;       ///< "drop + 0.510 m"
};

/// A temperature at a place and a moment.
struct Reading {
  double temperature = 0.0;  ///< K
  double time = 0.0;         ///< s
  Spot spot;
  std::optional<double> time_error;  ///< K, bar of the error in time; none if the record has none
  std::optional<double> grid_error;  ///< K, bar of the grid's error at that place and moment

  /// K, of both together; none unless both are known.
  [[nodiscard]] std::optional<double> error() const {
    return time_error && grid_error ? std::optional(*time_error + *grid_error) : std::nullopt;
  }
};

/// The first place and moment at which an item's limit had been exceeded for its persistence, or
/// its full dose was reached.
struct Crossing {
  double time = 0.0;           ///< s
  std::optional<double> rose;  ///< s, when the place rose above the limit; none for a dose
  Spot spot;
  std::optional<double> current;    ///< A at `time`
  std::optional<std::size_t> step;  ///< number of the staircase step, from 1
  std::optional<double> error;      ///< s, bar of `time`; none without bars, none for a dose
};

/// The greatest ageing dose of all places, as time at the item's reference temperature.
struct Dose {
  double equivalent = 0.0;     ///< s, with the best activation energy
  std::optional<double> low;   ///< s, the same place with the band's low energy
  std::optional<double> high;  ///< s, and with its high energy
  Spot spot;
};

struct ItemFinding {
  watch::Item item;
  watch::State state = watch::State::cannot_say;
  std::string remark;                 ///< why near or cannot say; what a band adds to crossed
  std::optional<Crossing> crossing;   ///< of the best limit
  std::optional<Crossing> with_low;   ///< of the low end of the limit's (or energy's) band
  std::optional<Crossing> with_high;  ///< of its high end
  std::optional<double> longest;      ///< s, longest stretch above the best limit at any place
  std::optional<Spot> longest_at;
  std::optional<double> last_above;  ///< s, last moment any place was above the best limit
  std::optional<Reading> hottest;    ///< of the part over the whole record
  std::optional<Dose> dose;          ///< of a dose item
  std::optional<double> char_depth;  ///< m, only where the model can tell
};

/// The hottest of one part in one step.
struct PartInStep {
  std::string part;
  Reading at_end;    ///< in the last row of the step
  Reading greatest;  ///< over all rows of the step
};

struct StepFinding {
  std::size_t number = 0;           ///< from 1
  std::string kind;                 ///< hold_current, hold_voltage, rest
  double level = 0.0;               ///< A or V, as asked
  double begin = 0.0;               ///< s
  double end = 0.0;                 ///< s
  std::string course;               ///< held, ramp or load; empty in records before format 1.3
  std::string until;                ///< rule that ends the step when it holds, else empty
  bool settled = false;             ///< and it held
  bool reached = false;             ///< the record has rows in this step
  bool complete = false;            ///< and goes on to its end
  std::optional<double> asked;      ///< A at the last row
  std::optional<double> got;        ///< A at the last row
  std::optional<double> got_least;  ///< A
  std::optional<double> got_greatest;
  std::optional<double> voltage;  ///< V over the wire at the last row
  std::optional<double> power;    ///< W made in wire and joints at the last row
  std::vector<PartInStep> parts;  ///< conductor, surface, wood, ceramic, as far as they exist
};

/// Where the heat went by the last row, J, and how well it adds up.
struct Ledger {
  double made = 0.0;
  double lost = 0.0;
  double stored = 0.0;
  double gap = 0.0;        ///< made - lost - stored
  double worst_gap = 0.0;  ///< greatest |gap| / made of all rows
};

/// Something outside of what the model holds for, from its first moment on.
struct ValidityFlag {
  std::string code;
  std::string text;
  std::string severity;  ///< note, beyond (what the model holds for), stop (the march ended)
  std::string part;      ///< may be empty
  std::optional<Spot> spot;
  double time = 0.0;              ///< s
  std::optional<double> current;  ///< A
  double value = 0.0;             ///< in `unit`
  double limit = 0.0;
  std::string unit;  ///< degC, A or 1
  /// Results of the part are not told from then on: they are where the run sheet gives a reason to
  /// go on past the model's stops, which then stamps all that is told.
  bool ends_results = false;
};

struct Heading {
  std::string title;
  std::string arrangement;
  std::string sheet_name;
  std::string program;
  std::string commit;
  std::string created;
  bool finished = false;
  double ends = 0.0;                 ///< s, last row
  double planned = 0.0;              ///< s, end of the staircase
  std::optional<double> time_error;  ///< K, bar of the error in time of all temperatures
  std::optional<double> grid_error;  ///< K, the largest bar of the grid's error
  std::string beyond;  ///< why the march was to go on past its own stops; empty: it was not
};

struct Findings {
  Heading heading;
  std::vector<StepFinding> steps;
  std::vector<ItemFinding> items;
  std::optional<Reading> hottest_conductor;
  std::optional<std::size_t> hottest_step;  ///< step of hottest_conductor, from 1
  std::optional<Ledger> ledger;
  std::vector<ValidityFlag> validity;               ///< in the order of time
  std::vector<std::string> notes;                   ///< see notes.hpp
  watch::State overall = watch::State::cannot_say;  ///< the worst of the items
};

}  // namespace ampstair::post::checks
