// SPDX-License-Identifier: MIT
#include "contest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "machine.hpp"

namespace ampstair::bench {

using tests::CvodeMarch;
using tests::HistoryKeeper;

namespace {

/// Takes what a march tells and keeps nothing; reads what a record shows.
class Listener : public marching::Observer {
 public:
  Listener() = default;
  explicit Listener(const std::vector<marching::Stretch>& reads) : reads_(reads) {}
  void moment(const marching::Moment&) override {}
  [[nodiscard]] std::span<const marching::Stretch> reads() const override { return reads_; }
  bool advanced(double) override { return true; }

 private:
  std::vector<marching::Stretch> reads_;
};

// Settings tried lie this far apart: the cheapest that keeps a target is found to a few percent.
const double ladder = std::pow(10.0, 0.125);
constexpr int rungs = 48;

/// The cheaper of what was found so far and another outcome, if that keeps the target.
bool improves(const std::optional<Outcome>& best, const Outcome& other, const Target& target) {
  return other.keeps(target) && (!best || other.seconds < best->seconds);
}

/// Settings below cost more and change no winner.
bool far_below_all_targets(const Outcome& outcome) {
  return outcome.anywhere < 0.4 * targets.back().error;
}

double seconds_of(const std::function<void()>& work) {
  const double begin = cpu_seconds();
  work();
  return cpu_seconds() - begin;
}

}  // namespace

Contest::Contest(const scenario::Scenario& scenario, double scale)
    : scenario_(scenario),
      seconds_of_grid_(-cpu_seconds()),
      grid_(grid::build(scenario_, scale)),
      network_(grid_, scenario_) {
  seconds_of_grid_ += cpu_seconds();
  seconds_of_stepper_ = seconds_of([&] {
    stepper_ = std::make_unique<marching::Stepper>(network_, scenario_.start_temperature);
  });
  reads_ = marching::View(network_, scenario_).cells_read();
  sparse_ = std::make_unique<CvodeMarch>(scenario_, network_, CvodeMarch::Solver::klu);
  banded_ = std::make_unique<CvodeMarch>(scenario_, network_, CvodeMarch::Solver::banded);
}

double Contest::share_of_own_coefficients() const {
  std::size_t own = 0;
  for (const auto& row : network_.rows().rows()) {
    own += row.even ? 0 : row.stations;
  }
  return static_cast<double>(own) / static_cast<double>(grid_.real_cells);
}

double Contest::make_reference() {
  HistoryKeeper theirs(network_, scenario_);
  network_.set_surroundings(0.0);
  sparse_->march({1e-10, 1e-9}, theirs);
  reference_ = std::move(theirs.history);
  return ours(2e-5).anywhere;
}

void Contest::judge(Outcome& outcome, const tests::History& history) const {
  const auto difference = tests::largest_difference(history, reference_);
  outcome.probed = std::max(difference.conductor, difference.probes);
  outcome.anywhere = difference.anywhere;
}

Outcome Contest::ours(double accuracy) {
  scenario_.output.accuracy = accuracy;
  HistoryKeeper keeper(network_, scenario_);
  Outcome outcome;
  outcome.seconds = seconds_of([&] {
    const auto summary = marching::march_again(scenario_, network_, *stepper_, keeper);
    outcome.steps = static_cast<long>(summary.steps);
    outcome.rejected = static_cast<long>(summary.rejected);
  });
  outcome.setting = fmt::format("accuracy {:.2g} K", accuracy);
  judge(outcome, keeper.history);
  return outcome;
}

CvodeMarch::Tolerance Contest::tolerance(const Setting& setting) {
  constexpr double kelvin_of_rise = 100.0;
  return {setting.scaled ? setting.absolute / kelvin_of_rise : 0.0, setting.absolute};
}

Outcome Contest::peer(const Setting& setting) {
  HistoryKeeper keeper(network_, scenario_);
  network_.set_surroundings(0.0);
  Outcome outcome;
  outcome.seconds = seconds_of([&] {
    const auto count = sparse_->march(tolerance(setting), keeper, setting.tuning);
    outcome.steps = count.steps;
    outcome.rejected = count.rejected;
  });
  outcome.setting = fmt::format("tolerance {:.2g} K{}{}", setting.absolute,
                                setting.scaled ? " + 1 %/K" : "", setting.tuned);
  judge(outcome, keeper.history);
  return outcome;
}

Contest::Winners Contest::find_ours() {
  std::array<std::optional<Outcome>, targets.size()> best;
  std::array<double, targets.size()> accuracy{};
  double asked = 3.0;
  for (int rung = 0; rung < rungs; ++rung, asked /= ladder) {
    const Outcome outcome = ours(asked);
    for (std::size_t k = 0; k < targets.size(); ++k) {
      if (improves(best[k], outcome, targets[k])) {
        best[k] = outcome;
        accuracy[k] = asked;
      }
    }
    if (far_below_all_targets(outcome)) {
      break;
    }
  }
  Winners winners;
  for (std::size_t k = 0; k < targets.size(); ++k) {
    if (best[k]) {
      winners[k] = Entrant{"march", *best[k], [this, asked_for = accuracy[k]] {
                             Listener listener(reads_);
                             scenario_.output.accuracy = asked_for;
                             marching::march_again(scenario_, network_, *stepper_, listener);
                           }};
    }
  }
  return winners;
}

/// Marches at a setting and keeps it for every target it is the cheapest for.
Outcome Contest::enter(const Setting& setting) {
  const Outcome outcome = peer(setting);
  for (std::size_t k = 0; k < targets.size(); ++k) {
    if (improves(best_[k], outcome, targets[k])) {
      best_[k] = outcome;
      chosen_[k] = setting;
    }
  }
  return outcome;
}

/// CVODE's own knobs, about a tolerance that was best with its defaults.
void Contest::tune(const Setting& middle) {
  const std::pair<const char*, CvodeMarch::Tuning> tunings[] = {
      {", order <= 3", {.largest_order = 3}},
      {", order <= 4", {.largest_order = 4}},
      {", factors 10", {.steps_between_factors = 10}},
      {", Newton 0.3", {.newton_tolerance = 0.3}},
      {", Newton 0.03", {.newton_tolerance = 0.03}}};
  for (const auto& [name, tuning] : tunings) {
    for (const double shift : {ladder, 1.0, 1.0 / ladder}) {
      enter({middle.scaled, shift * middle.absolute, tuning, name});
    }
  }
}

Contest::Winners Contest::find_sparse() {
  for (const bool scaled : {false, true}) {
    Setting setting{scaled, 1.0, {}, ""};
    for (int rung = 0; rung < rungs; ++rung, setting.absolute /= ladder) {
      if (far_below_all_targets(enter(setting))) {
        break;
      }
    }
  }
  const auto with_defaults = chosen_;
  for (std::size_t k = 0; k < targets.size(); ++k) {
    const auto same = [&](const Setting& other) {
      return other.scaled == with_defaults[k].scaled && other.absolute == with_defaults[k].absolute;
    };
    if (best_[k] && std::none_of(with_defaults.begin(), with_defaults.begin() + k, same)) {
      tune(with_defaults[k]);
    }
  }
  Winners winners;
  for (std::size_t k = 0; k < targets.size(); ++k) {
    if (best_[k]) {
      winners[k] = Entrant{"CVODE, KLU", *best_[k], [this, setting = chosen_[k]] {
                             Listener listener;
                             sparse_->march(tolerance(setting), listener, setting.tuning);
                           }};
    }
  }
  return winners;
}

Contest::Winners Contest::with_band(const Winners& sparse) {
  Winners winners = sparse;
  for (std::size_t k = 0; k < targets.size(); ++k) {
    if (winners[k]) {
      winners[k]->method = "CVODE, banded";
      winners[k]->march = [this, setting = chosen_[k]] {
        Listener listener;
        banded_->march(tolerance(setting), listener, setting.tuning);
      };
    }
  }
  return winners;
}

}  // namespace ampstair::bench
