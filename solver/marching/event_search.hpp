// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "marching/covering_search.hpp"
#include "marching/events.hpp"
#include "marching/levels.hpp"
#include "marching/network.hpp"
#include "marching/stepper.hpp"
#include "scenario/scenario.hpp"
#include "watch/settling.hpp"
#include "watch/settling_rule.hpp"

namespace ampstair::marching {

/// Looks through every accepted time step for what happened inside it, on its continuous extension:
/// the hottest places of watched parts are read at four times of it (of parts far from any level,
/// at its end), and where one of them, or a turn of the cubic through them, lies beyond a level,
/// the passing is located. Only the cells that count are evaluated; nothing is allocated from step
/// to step but for events found.
class EventSearch {
 public:
  /// @param levels what is watched, or null
  EventSearch(const scenario::Scenario& scenario, HeatNetwork& network, const Stepper& stepper,
              Levels* levels);

  struct Found {
    double theta = 0.0;      ///< part of the step
    bool needs_row = false;  ///< the temperatures of this moment are wanted in the record
    Event event;
  };
  /// What the begin of a phase of constant drive and surroundings brings by itself: a step of the
  /// staircase that asks for too much, a surface whose air has changed.
  const std::vector<Found>& begin_phase(double time, std::size_t step);
  /// Looks through the step attempted last, from `time` on [s], of `length` [s].
  /// @return what was found before reach(), in the order of time
  const std::vector<Found>& look(double time, double length);

  /// What the step of the staircase that ends now brings in hindsight: since when it was settled.
  const std::vector<Found>& end_step();

  /// Part of that step after which it has to end: the conductor begins to melt or parts, covering
  /// is gone, the supply meets or leaves its ceiling, or the rule holds that ends the step of the
  /// staircase; 1 if it need not.
  [[nodiscard]] double reach() const { return reach_; }
  [[nodiscard]] bool cut() const { return cut_; }
  /// What the step ends with, where it is cut.
  [[nodiscard]] const Event& end() const { return end_; }
  /// Sites of HeatNetwork::covering() whose covering is gone with that end.
  [[nodiscard]] const std::vector<std::size_t>& going() const { return going_; }
  /// The loop is open from here on, inside a phase.
  void parted();
  /// The loop is whole again: what melted before may melt anew.
  void rejoined() { molten_ = false; }
  /// Readings so far, of the conductor or of one part.
  [[nodiscard]] std::size_t looks() const { return looks_; }

 private:
  static constexpr std::size_t samples = 4;  // per step, at even spacing
  using Values = std::array<double, samples>;

  /// Reads the temperatures of the conductor and the leads.
  void read(double theta);
  /// Reads those of a watched part.
  Levels::Hottest hottest(std::size_t part, double theta);
  [[nodiscard]] Levels::Hottest hottest_conductor() const;
  /// V that the current asked would need beyond the supply's limit.
  [[nodiscard]] double beyond_ceiling() const;
  [[nodiscard]] Event event_here(Event::Kind kind, double theta) const;

  [[nodiscard]] bool may_meet_ceiling(scenario::Step::Kind kind) const;
  void find_reach();
  void find_melting();
  void find_covering();
  void find_ceiling();
  void end_with(double theta, Event::Kind kind);
  void carry_over();
  void sample();
  void search_until();
  void sample_part(std::size_t part);
  [[nodiscard]] bool near_a_level(std::size_t part) const;
  [[nodiscard]] Event passing(std::size_t index, double theta);
  void search_level(std::size_t index);
  /// What a temperature [K] has over the level, seen from the side it was on last.
  [[nodiscard]] double over_level(std::size_t index, double kelvin) const;
  void pass(std::size_t index, double from, double from_kelvin, double to, double to_kelvin);
  void search_settling();
  void keep_settled(Event::Kind kind, const std::optional<double>& since, Event& event);
  /// The part of the step, between two with values of unlike sign, at which `value` has changed
  /// its sign, to `within` [s].
  [[nodiscard]] double locate(const std::function<double(double)>& value, double from,
                              double from_value, double to, double to_value, double within) const;

  const scenario::Scenario& scenario_;
  HeatNetwork& network_;
  const Stepper& stepper_;
  Levels* levels_;
  CoveringSearch covering_;
  std::vector<std::size_t> going_;
  bool molten_ = false;              // somewhere, or it has been
  bool current_may_fall_ = false;    // in this phase
  std::vector<Stretch> loop_cells_;  // the conductor's and the leads'
  std::vector<double> temperature_;  // K per cell of the grid, at cells that were read only
  double read_time_ = 0.0;           // s, of what was read last

  double time_ = 0.0;
  double length_ = 0.0;
  std::size_t step_ = 0;
  bool begun_ = false;
  double ceiling_ = 0.0;  // beyond_ceiling() where the step begins
  double ceiling_scale_ =
      1.0;  // V, the voltage limit, or what the supply has where the phase began
  bool limited_ = false;
  double ceiling_time_ = 0.0;    // s, when it was met or left last
  std::vector<Values> of_part_;  // K, hottest of each watched part
  Values conductor_{};           // K, hottest of it
  std::vector<bool> above_;      // per level, where the step begins
  watch::SettledByRate by_rate_{watch::settled_rate};
  watch::SettledByChange by_hour_{watch::settled_change, watch::settled_span};
  std::optional<watch::SettlingWatch> until_;  // in a step that ends by a rule
  bool limited_before_ = false;                // limited_ where the time step begins
  Event rate_event_, hour_event_;              // what would be told if the step ended now

  std::vector<Found> found_;
  double reach_ = 1.0;
  bool cut_ = false;
  Event end_;
  std::size_t looks_ = 0;
};

}  // namespace ampstair::marching
