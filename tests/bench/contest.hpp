// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "grid/grid.hpp"
#include "marching/network.hpp"
#include "marching/stepper.hpp"
#include "peer_cases.hpp"
#include "peer_cvode.hpp"

namespace ampstair::bench {

/// What has to be kept: the error of the conductor at every station and of all probes, at every
/// output ("probed"), or of everything a record shows, surfaces and parts at every station
/// included.
struct Target {
  double error = 0.1;  ///< K
  bool anywhere = false;
};
inline constexpr std::array<Target, 4> targets{
    {{0.1, false}, {0.01, false}, {0.1, true}, {0.01, true}}};

/// How one march went.
struct Outcome {
  std::string setting;
  long steps = 0;
  long rejected = 0;
  double probed = 0.0;    ///< K
  double anywhere = 0.0;  ///< K
  double seconds = 0.0;   ///< CPU

  [[nodiscard]] bool keeps(const Target& target) const {
    return (target.anywhere ? anywhere : probed) <= target.error;
  }
};

/// A march with all its settings chosen, and how it went when its error was measured.
struct Entrant {
  std::string method;
  Outcome outcome;
  std::function<void()> march;
};

/// march() and CVODE on one scenario and one grid, measured against one reference.
class Contest {
 public:
  Contest(const scenario::Scenario& scenario, double scale);

  /// Marches the reference, ours and CVODE's, far tighter than any target.
  /// @return their largest difference anywhere, K; CVODE's is the one kept
  double make_reference();
  /// Cheapest setting of each method that keeps each target: none where no setting does.
  using Winners = std::array<std::optional<Entrant>, targets.size()>;
  Winners find_ours();
  Winners find_sparse();
  /// CVODE's band solver takes the same steps as its sparse one, so it runs the same settings.
  Winners with_band(const Winners& sparse);

  [[nodiscard]] std::size_t cells() const { return grid_.real_cells; }
  [[nodiscard]] std::size_t cells_with_padding() const { return grid_.cells; }
  /// Share of the cells whose rows are not even (see marching::Row).
  [[nodiscard]] double share_of_own_coefficients() const;
  // Spent once for all marches: on grid and network, on laying out the stepper (CVODE's pattern and
  // its symbolic factors are not timed either).
  [[nodiscard]] double seconds_of_grid() const { return seconds_of_grid_; }
  [[nodiscard]] double seconds_of_stepper() const { return seconds_of_stepper_; }
  [[nodiscard]] std::size_t half_bandwidth() const { return banded_->half_bandwidth(); }

 private:
  struct Setting {
    bool scaled = false;  // error weights grow with the rise, or do not
    double absolute = 1.0;
    tests::CvodeMarch::Tuning tuning;
    std::string tuned;
  };

  Outcome ours(double accuracy);
  Outcome peer(const Setting& setting);
  void judge(Outcome& outcome, const tests::History& history) const;
  Outcome enter(const Setting& setting);
  void tune(const Setting& middle);
  static tests::CvodeMarch::Tolerance tolerance(const Setting& setting);

  scenario::Scenario scenario_;
  double seconds_of_grid_;
  double seconds_of_stepper_ = 0.0;
  grid::Grid grid_;
  marching::HeatNetwork network_;
  std::unique_ptr<marching::Stepper> stepper_;
  std::vector<marching::Stretch> reads_;  // what a record shows
  std::unique_ptr<tests::CvodeMarch> sparse_, banded_;
  tests::History reference_;
  std::array<std::optional<Outcome>, targets.size()> best_;  // of CVODE
  std::array<Setting, targets.size()> chosen_;               // with it
};

}  // namespace ampstair::bench
