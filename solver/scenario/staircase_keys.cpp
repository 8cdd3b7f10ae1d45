// SPDX-License-Identifier: MIT
#include "scenario/run_sheet.hpp"

// What a staircase may hold.

namespace ampstair::scenario {

namespace {

using sheet::Dimension;
using sheet::Mapping;
using sheet::optional;

constexpr sheet::Bounds amperes = {0.0, 1e5, true};
constexpr sheet::Bounds volts = {0.0, 1e4, true};
constexpr sheet::Bounds seconds = {0.0, 1e9, true};

/// Keys of one step: what is asked.
template <class T>
void add_levels(Mapping<T>& keys) {
  keys.number("hold", &T::hold, Dimension::current, amperes, optional(), "current to be held")
      .number("volts", &T::volts, Dimension::voltage, volts, optional(),
              "voltage to be held at the supply, behind its inner resistance")
      .number("rest", &T::rest, Dimension::duration, seconds, optional(), "time without current")
      .number("ramp_to", &T::ramp_to, Dimension::current, {0.0, 1e5}, optional(),
              "current to be reached evenly by the end of the step, from what the step before "
              "ended with; from 0 A at the begin and after a rest")
      .number("ramp_volts_to", &T::ramp_volts_to, Dimension::voltage, {0.0, 1e4}, optional(),
              "the same for a fed voltage")
      .text("load", &T::load, optional(),
            "a file of currents or voltages against time, as seen from this sheet's folder: a "
            "header  time [min], current [A]  or  time [s], voltage [V], then two numbers a row, "
            "the first at time 0; the last row tells when it ends. The file is kept in the record")
      .choice(
          "between", &T::between,
          {{"hold", "a level holds until the next row"}, {"linear", "straight lines between rows"}},
          optional(), "with 'load': what holds between two rows; hold where not given");
}

/// How long a step lasts, and what else it may say.
template <class T>
void add_ends(Mapping<T>& keys) {
  keys.number("for", &T::lasts, Dimension::duration, seconds, optional(),
              "with 'hold', 'volts' and ramps: how long; with 'load': when it ends, where that is "
              "not its last row")
      .choice(
          "until", &T::until,
          {{"settled 1 K/h", "less than 1 K in the hour before (IEC 60598-1 12.4.1, BS 1363-1)"},
           {"settled 2 K/h", "no more than 2 K in the hour before (IEC 60034-1)"},
           {"settled 1 K in three readings",
            "less than 1 K between any two of three readings 5 min apart (IEC 61810-7)"},
           {"settled by tenths",
            "three successive readings, a tenth of the time elapsed apart and not less than 5 "
            "min, each less than 1 K from the one before (after UL 1278 39.1.8)"}},
          optional(),
          "with 'hold', 'volts' or 'rest': the step ends as soon as the hottest conductor "
          "temperature keeps this rule within the step. A rule is no promise of what is still "
          "to come: short ones stop early in a run with slow parts, as buried wire")
      .number("at_most", &T::at_most, Dimension::duration, seconds, optional(),
              "with 'until': when the step ends at the latest; a 'rest' has its own time for that")
      .truth("rejoined", &T::rejoined, false,
             "a conductor that has parted in an earlier step is whole again from here on, as if "
             "mended with its own metal; without it a parted conductor carries no current to the "
             "end of the staircase. No effect while the place is still molten")
      .place(&T::place);
}

const Mapping<StepSheet>& cycle_step_keys() {
  static const auto keys = [] {
    Mapping<StepSheet> mapping("step of a cycle", "As a step of the staircase");
    add_levels(mapping);
    add_ends(mapping);
    return mapping;
  }();
  return keys;
}

}  // namespace

const Mapping<StaircaseEntrySheet>& staircase_entry_keys() {
  static const auto keys = [] {
    Mapping<StaircaseEntrySheet> mapping(
        "step",
        "One step: {hold:, for:}, {volts:, for:}, {rest:}, {ramp_to:, for:} or {load:}; or "
        "steps in turn: {cycle: [...], times:}");
    add_levels(mapping);
    add_ends(mapping);
    mapping
        .list("cycle", &StaircaseEntrySheet::cycle, cycle_step_keys(), optional(),
              "steps to be gone through one after the other, again and again")
        .number("times", &StaircaseEntrySheet::times, Dimension::count, {1.0, 10000.0}, optional(),
                "with 'cycle': how often");
    return mapping;
  }();
  return keys;
}

}  // namespace ampstair::scenario
