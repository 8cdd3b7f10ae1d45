// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "marching/flag.hpp"
#include "marching/levels.hpp"
#include "marching/network.hpp"
#include "marching/stepper.hpp"
#include "marching/validity_limits.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::marching {

/// Watches over what the model holds for: the range of every material at the hottest place of its
/// part, the ranges of the correlations and of the table of air, and the two limits at which a
/// staircase stops unless its sheet gives a reason to go on (Scenario::beyond). Which they are,
/// with their sources: heat/validity.md.
///
/// Where nothing reacts, no cell is hotter than the hottest of the conductor, the side bodies and
/// the surroundings, since heat is made nowhere else: as long as that is below all limits, nothing
/// else is read.
class Validity {
 public:
  Validity(const HeatNetwork& network, const View& view, const scenario::Scenario& scenario);

  /// Before the first time step of a phase of constant drive and surroundings, at `time` [s].
  /// @return what is found there
  const std::vector<Flag>& begin_phase(const Stepper& stepper, double time);
  /// Looks through the part `reach` of the step attempted last, from `time` on [s], of `length`
  /// [s].
  /// @return what is found, in the order of time, up to stops_at()
  const std::vector<Flag>& look(const Stepper& stepper, double time, double length, double reach);

  /// The same flags.
  [[nodiscard]] const std::vector<Flag>& found() const { return flags_; }
  /// Whether the march has to end with what was found last.
  [[nodiscard]] bool stops() const { return stops_; }
  /// Part of the step at which it has to; else `reach`.
  [[nodiscard]] double stops_at() const { return stops_at_; }

 private:
  /// A level passed inside the step.
  struct Candidate {
    double theta;
    std::size_t level;
  };

  void begin(double reach);
  void read(const Stepper& stepper, double theta);
  [[nodiscard]] Levels::Hottest hottest(const Stepper& stepper, std::size_t part, double theta);
  [[nodiscard]] double locate(const Stepper& stepper, const Levels::Level& level, double length,
                              double reach, double at_reach);
  void find_levels(const Stepper& stepper, double length, double reach);
  void tell(const Stepper& stepper, double time, const Candidate& found);
  void check_current(double time, double theta);

  const HeatNetwork& network_;
  const std::vector<ValidityLimit> limits_;
  Levels levels_;             // of limits_
  std::vector<bool> passed_;  // per level
  const std::vector<Flag> coming_;
  std::size_t told_ = 0;  // of coming_
  const FusingLimit fusing_;
  bool fusing_passed_ = false;
  const double warmest_around_;      // K
  std::vector<Stretch> hot_cells_;   // conductor and side bodies
  std::vector<double> temperature_;  // K per cell of the grid, at cells that were read only
  double hottest_ = 0.0;             // K, of hot_cells_ as read last, and around
  std::vector<Candidate> candidates_;
  std::vector<Flag> flags_;
  bool stops_ = false;
  double stops_at_ = 1.0;
};

}  // namespace ampstair::marching
