// SPDX-License-Identifier: MIT
#include "marching/march.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "marching/comb.hpp"
#include "marching/scheme.hpp"

namespace ampstair::marching {

namespace {

using Vector = Cells;
constexpr const Scheme& scheme = ros34pw2;

// The embedded error of one step overstates the error of the temperatures by about this much: less
// for a bare wire that jumps in a handful of steps, more for a long staircase
// (tests/verification/order_in_time.test.cpp).
constexpr double tolerance_per_accuracy = 10.0;

// Copper at a megampere warms by a kelvin in this time; no wire needs a shorter step.
constexpr double shortest_step = 1e-9;  // s

/// Heat made and lost, marched as two more components of the same scheme.
struct LedgerStages {
  std::array<double, Scheme::stages> made{};
  std::array<double, Scheme::stages> lost{};
};

class March {
 public:
  March(const scenario::Scenario& scenario, HeatNetwork& network, Observer& observer)
      : scenario_(scenario),
        network_(network),
        observer_(observer),
        comb_(network),
        cells_(network.grid().cells),
        tolerance_(tolerance_per_accuracy * scenario.output.accuracy) {
    for (Vector* v : {&temperature_, &net_, &stage_, &axial_, &increment_}) {
      v->assign(cells_, 0.0);
    }
    slope_.assign(cells_, 1.0);
    stage_slope_.assign(cells_, 1.0);
    for (Vector& u : stages_) {
      u.assign(cells_, 0.0);
    }
    const auto start = network.uniform(scenario.start_temperature);
    u_.assign(start.begin(), start.end());
    start_ = u_;
    summary_.cells = network.grid().real_cells;
    melting_ = scenario.wire.metal->melting_point > 0.0 ? scenario.wire.metal->melting_point
                                                        : std::numeric_limits<double>::infinity();
  }

  Summary run() {
    begin_phase_drive(0);
    report(0.0, 0, false, u_, ledger_);
    double begin = 0.0;
    for (std::size_t s = 0; s < scenario_.staircase.size(); ++s) {
      const double end = begin + scenario_.staircase[s].duration;
      step_ = s;
      if (!climb(begin, end)) {
        break;
      }
      begin = end;
    }
    summary_.end_time = time_;
    return summary_;
  }

 private:
  void begin_phase_drive(std::size_t s) {
    const auto& step = scenario_.staircase[s];
    network_.set_drive({step.kind, step.level});
  }

  /// One step of the staircase, cut where the surroundings change.
  bool climb(double begin, double end) {
    begin_phase_drive(step_);
    std::vector<double> cuts;
    for (const auto& around : scenario_.surroundings) {
      for (const auto& air : around.air) {
        if (air.from_time > begin && air.from_time < end) {
          cuts.push_back(air.from_time);
        }
      }
    }
    cuts.push_back(end);
    std::sort(cuts.begin(), cuts.end());
    cuts.erase(std::unique(cuts.begin(), cuts.end()), cuts.end());
    for (const double cut : cuts) {
      network_.set_surroundings(time_);
      if (!phase(cut, cut == end)) {
        return false;
      }
    }
    return true;
  }

  /// Marches to `end` under constant drive and surroundings.
  bool phase(double end, bool step_ends) {
    double h = std::min(first_step(), end - time_);
    double error_before = 1.0;
    bool first = true;
    while (time_ < end) {
      const double rest = end - time_;
      bool last = false;
      if (h >= rest * (1.0 - 1e-12)) {
        h = rest;
        last = true;
      } else if (h > 0.5 * rest) {
        h = 0.5 * rest;  // two even steps instead of a long and a short one
      }
      const double error = try_step(h);
      if (!(error <= 1.0)) {
        ++summary_.rejected;
        h *= std::isfinite(error) ? std::max(0.1, 0.9 * std::cbrt(1.0 / error)) : 0.1;
        if (h < shortest_step) {
          summary_.ending = Summary::Ending::step_too_short;
          return false;
        }
        continue;
      }
      summary_.error_estimate = std::max(summary_.error_estimate, error * tolerance_);
      if (!accept(h, last ? end : time_ + h, last && step_ends)) {
        return false;
      }
      const double clipped = std::max(error, 1e-4);
      const double factor =
          first ? 0.9 * std::pow(clipped, -1.0 / 3.0)
                : 0.9 * std::pow(clipped, -0.7 / 3.0) * std::pow(error_before, 0.4 / 3.0);
      h *= std::clamp(factor, 0.2, first ? 10.0 : 4.0);
      error_before = clipped;
      first = false;
    }
    return true;
  }

  /// Length of the first step after a jump, from the curvature of the conductor's temperature.
  double first_step() {
    network_.temperatures(u_, temperature_, slope_);
    network_.rates(temperature_, net_, false);
    constexpr double probe = 1e-3;  // s
    const auto capacity = network_.capacity();
    for (std::size_t c = 0; c < cells_; ++c) {
      stage_[c] = u_[c] + probe * net_[c] / capacity[c] * (network_.nearly_massless(c) ? 0.0 : 1.0);
    }
    network_.temperatures(stage_, increment_, stage_slope_);
    network_.rates(increment_, stage_, false);
    double curvature = 0.0;  // K/s2
    for (std::size_t j = 0; j < network_.grid().stations(); ++j) {
      curvature = std::max(curvature, std::abs(stage_[j] - net_[j]) / (capacity[j] * probe));
    }
    return 2.0 * std::sqrt(2.0 * tolerance_ / std::max(curvature, 1e-12));
  }

  /// Computes the stages of a step of length h from u_.
  /// @return estimated error as a part of the tolerance; NaN or infinite when it failed
  double try_step(double h) {
    const double s = scheme.gamma * h;
    ledger_stages_ = {};
    network_.temperatures(u_, temperature_, slope_);
    for (std::size_t i = 0; i < Scheme::stages; ++i) {
      if (i > 0) {
        loops_.combine(i, cells_, stage_.data(), u_.data(), scheme.a[i].data(), stage_view());
        network_.temperatures(stage_, stage_, stage_slope_);
      }
      const Totals totals = network_.rates(i == 0 ? temperature_ : stage_, net_, i == 0);
      if (i == 0) {
        comb_.factor(s, slope_);
      }
      Vector& u = stages_[i];
      right_hand_side(i, s, u);
      comb_.solve(u, axial_);
      keep_ledger(i, s, totals, u);
      for (const std::size_t c : network_.enthalpy_cells()) {
        u[c] /= slope_[c];
      }
    }
    return error_norm();
  }

  [[nodiscard]] StageView stage_view() const {
    return {{stages_[0].data(), stages_[1].data(), stages_[2].data(), stages_[3].data()}};
  }

  /// s Q + gamma C sum c_ij U_j, with Q in net_.
  void right_hand_side(std::size_t i, double s, Vector& out) {
    Scheme::Vector weight = scheme.c[i];
    for (double& w : weight) {
      w *= scheme.gamma;
    }
    loops_.right_hand_side(i, cells_, out.data(), net_.data(), s, network_.capacity().data(),
                           weight.data(), stage_view());
  }

  /// The same stage for heat made and lost, with the slopes the factors used: what the cells gain
  /// is then exactly what the ledger books. `change` is the stage's temperature
  /// change, K per cell.
  void keep_ledger(std::size_t i, double s, const Totals& totals, const Vector& change) {
    double made = s * totals.made;
    double lost = s * totals.lost;
    for (std::size_t k = 0; k < i; ++k) {
      made += scheme.gamma * scheme.c[i][k] * ledger_stages_.made[k];
      lost += scheme.gamma * scheme.c[i][k] * ledger_stages_.lost[k];
    }
    const auto& source = network_.source_slope();
    for (std::size_t j = 0; j < source.size(); ++j) {
      made += s * source[j] * change[j];
    }
    const auto& faces = network_.grid().faces;
    const auto& slopes = network_.face_slope();
    for (std::size_t f = 0; f < faces.size(); ++f) {
      lost += s * slopes[f] * (faces[f].axial ? axial_ : change)[faces[f].cell];
    }
    ledger_stages_.made[i] = made;
    ledger_stages_.lost[i] = lost;
  }

  double error_norm() {
    const double error = loops_.error(cells_, scheme.e.data(), stage_view(), slope_.data());
    return std::isfinite(error) ? error / tolerance_ : std::numeric_limits<double>::infinity();
  }

  /// Reports the outputs inside the step, then moves to its end.
  bool accept(double h, double end, bool step_ends) {
    const double melts = melting_moment();
    const double reach = std::min(melts, 1.0);
    report_inside(h, end, reach);
    weights_at(reach);
    Vector& u = increment_;
    state_with_weights(u);
    u_.swap(u);
    ledger_ = ledger_with_weights();
    time_ = reach < 1.0 ? time_ + reach * h : end;
    ++summary_.steps;
    if (reach < 1.0) {
      report(time_, step_, true, u_, ledger_);
      summary_.ending = Summary::Ending::conductor_melts;
      return false;
    }
    if (step_ends || due(end)) {
      report(end, step_, step_ends, u_, ledger_);
    }
    if (!observer_.advanced(time_)) {
      summary_.ending = Summary::Ending::stopped_by_observer;
      return false;
    }
    return true;
  }

  /// Part of the step after which the conductor's hottest place melts; infinite if it does not.
  double melting_moment() {
    const auto hottest = [&](double theta) {
      weights_at(theta);
      double t = 0.0;
      for (std::size_t j = 0; j < network_.grid().stations(); ++j) {
        double u = u_[j];
        for (std::size_t i = 0; i < Scheme::stages; ++i) {
          u += weights_[i] * stages_[i][j];
        }
        t = std::max(t, network_.temperature_of(j, u));
      }
      return t;
    };
    if (hottest(1.0) < melting_) {
      return std::numeric_limits<double>::infinity();
    }
    double low = 0.0;
    double high = 1.0;
    for (int halving = 0; halving < 50; ++halving) {
      const double middle = 0.5 * (low + high);
      (hottest(middle) < melting_ ? low : high) = middle;
    }
    return high;
  }

  // ---- output inside a step --------------------------------------------------------------------
  [[nodiscard]] double output_time(std::size_t k) const {
    return scenario_.output.every * static_cast<double>(k);
  }
  [[nodiscard]] bool due(double time) const {
    return output_time(next_output_) <= time * (1.0 + 1e-12);
  }

  void report_inside(double h, double end, double reach) {
    const double stop = time_ + reach * h;
    while (output_time(next_output_) < std::min(stop, end) * (1.0 - 1e-12)) {
      const double t = output_time(next_output_);
      weights_at((t - time_) / h);
      state_with_weights(increment_);
      report(t, step_, false, increment_, ledger_with_weights());
    }
  }

  void weights_at(double theta) {
    for (std::size_t i = 0; i < Scheme::stages; ++i) {
      const auto& d = scheme.d[i];
      weights_[i] = theta == 1.0 ? scheme.m[i] : theta * (d[0] + theta * (d[1] + theta * d[2]));
    }
  }

  void state_with_weights(Vector& u) {
    loops_.combine(Scheme::stages, cells_, u.data(), u_.data(), weights_.data(), stage_view());
  }

  [[nodiscard]] Ledger ledger_with_weights() const {
    Ledger ledger = ledger_;
    for (std::size_t i = 0; i < Scheme::stages; ++i) {
      ledger.made += weights_[i] * ledger_stages_.made[i];
      ledger.lost += weights_[i] * ledger_stages_.lost[i];
    }
    return ledger;
  }

  void report(double time, std::size_t step, bool step_ends, const Vector& u, Ledger ledger) {
    ledger.stored = loops_.stored(cells_, network_.capacity().data(), u.data(), start_.data());
    network_.temperatures(u, stage_, stage_slope_);
    Moment moment;
    moment.time = time;
    moment.step = step;
    moment.step_ends = step_ends;
    moment.temperature = stage_;
    moment.electrical = network_.electrical(stage_);
    moment.power = moment.electrical.current * moment.electrical.wire_voltage;
    moment.ledger = ledger;
    observer_.moment(moment);
    while (due(time)) {
      ++next_output_;
    }
  }

  const scenario::Scenario& scenario_;
  HeatNetwork& network_;
  Observer& observer_;
  const Kernels& loops_ = kernels();
  Comb comb_;
  std::size_t cells_;
  double tolerance_;  // K, for the embedded error of one step
  double melting_;    // K

  double time_ = 0.0;
  std::size_t step_ = 0;
  std::size_t next_output_ = 0;
  Vector u_, start_;
  Vector temperature_, slope_, net_, stage_, stage_slope_, axial_, increment_;
  std::array<Vector, Scheme::stages> stages_;
  LedgerStages ledger_stages_;
  Scheme::Vector weights_{};
  Ledger ledger_;
  Summary summary_;
};

}  // namespace

Summary march(const scenario::Scenario& scenario, HeatNetwork& network, Observer& observer) {
  return March(scenario, network, observer).run();
}

}  // namespace ampstair::marching
