// SPDX-License-Identifier: MIT
#include "marching/march.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace ampstair::marching {

namespace {

// The embedded error of one step overstates the error of the temperatures by about this much: less
// for a bare wire that jumps in a handful of steps, more for a long staircase
// (tests/verification/order_in_time.test.cpp).
constexpr double tolerance_per_accuracy = 10.0;

// Copper at a megampere warms by a kelvin in this time; no wire needs a shorter step.
constexpr double shortest_step = 1e-9;  // s

class March {
 public:
  March(const scenario::Scenario& scenario, HeatNetwork& network, Observer& observer)
      : scenario_(scenario),
        network_(network),
        observer_(observer),
        stepper_(network, scenario.start_temperature),
        tolerance_(tolerance_per_accuracy * scenario.output.accuracy) {
    temperature_.assign(network.grid().cells, 0.0);
    slope_.assign(network.grid().cells, 1.0);
    summary_.cells = network.grid().real_cells;
    melting_ = scenario.wire.metal->melting_point > 0.0 ? scenario.wire.metal->melting_point
                                                        : std::numeric_limits<double>::infinity();
  }

  Summary run() {
    begin_phase_drive(0);
    report(0.0, false, stepper_.state(), stepper_.ledger());
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
    double h = std::min(stepper_.first_length(tolerance_), end - time_);
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
      const double error = stepper_.attempt(h) / tolerance_;
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

  /// Reports the outputs inside the step, then moves to its end.
  bool accept(double h, double end, bool step_ends) {
    const double reach = std::min(melting_moment(), 1.0);
    report_inside(h, end, reach);
    stepper_.advance(reach);
    time_ = reach < 1.0 ? time_ + reach * h : end;
    ++summary_.steps;
    if (reach < 1.0) {
      report(time_, true, stepper_.state(), stepper_.ledger());
      summary_.ending = Summary::Ending::conductor_melts;
      return false;
    }
    if (step_ends || due(end)) {
      report(end, step_ends, stepper_.state(), stepper_.ledger());
    }
    if (!observer_.advanced(time_)) {
      summary_.ending = Summary::Ending::stopped_by_observer;
      return false;
    }
    return true;
  }

  /// Part of the step after which the conductor's hottest place melts; infinite if it does not.
  double melting_moment() {
    if (stepper_.hottest_conductor_at(1.0) < melting_) {
      return std::numeric_limits<double>::infinity();
    }
    double low = 0.0;
    double high = 1.0;
    for (int halving = 0; halving < 50; ++halving) {
      const double middle = 0.5 * (low + high);
      (stepper_.hottest_conductor_at(middle) < melting_ ? low : high) = middle;
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
      const double theta = (t - time_) / h;
      stepper_.state_at(theta, inside_);
      report(t, false, inside_, stepper_.ledger_at(theta));
    }
  }

  void report(double time, bool step_ends, const Cells& u, Ledger ledger) {
    ledger.stored = stepper_.stored(u);
    network_.temperatures(u, temperature_, slope_);
    Moment moment;
    moment.time = time;
    moment.step = step_;
    moment.step_ends = step_ends;
    moment.temperature = temperature_;
    moment.electrical = network_.electrical(temperature_);
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
  Stepper stepper_;
  double tolerance_;  // K, for the embedded error of one step
  double melting_;    // K

  double time_ = 0.0;
  std::size_t step_ = 0;
  std::size_t next_output_ = 0;
  Cells inside_, temperature_, slope_;  // of a moment reported
  Summary summary_;
};

}  // namespace

Summary march(const scenario::Scenario& scenario, HeatNetwork& network, Observer& observer) {
  return March(scenario, network, observer).run();
}

}  // namespace ampstair::marching
