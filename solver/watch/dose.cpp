// SPDX-License-Identifier: MIT
#include "watch/dose.hpp"

#include <algorithm>
#include <cmath>

namespace ampstair::watch {

namespace {

constexpr double gas_constant = 8.314462618;  // J/mol/K, CODATA 2018, exact

// Simpson's rule on an exponential errs by (change of exponent over a panel)^4 / 2880, relatively:
// 1.4e-6 here.
constexpr double exponent_per_panel = 0.25;

}  // namespace

double arrhenius_ratio(double activation_energy, double temperature, double reference_temperature) {
  return std::exp(-activation_energy / gas_constant *
                  (1.0 / temperature - 1.0 / reference_temperature));
}

ArrheniusDose::ArrheniusDose(double activation_energy, double reference_temperature, double full)
    : scale_(activation_energy / gas_constant),
      at_reference_(scale_ / reference_temperature),
      full_(full) {}

double ArrheniusDose::exponent(double temperature) const {
  return at_reference_ - scale_ / temperature;
}

double ArrheniusDose::integral(double end_temperature, double duration) const {
  const double change = std::abs(exponent(end_temperature) - last_exponent_);
  const double panels = std::max(1.0, std::ceil(change / exponent_per_panel));
  const double half = (end_temperature - last_temperature_) / (2.0 * panels);
  double sum = 0.0;
  double left = last_ratio_;
  for (double panel = 0.0; panel < panels; ++panel) {
    const double middle = std::exp(exponent(last_temperature_ + (2.0 * panel + 1.0) * half));
    const double right = std::exp(exponent(last_temperature_ + (2.0 * panel + 2.0) * half));
    sum += left + 4.0 * middle + right;
    left = right;
  }
  return sum * duration / (6.0 * panels);
}

double ArrheniusDose::when_full(double time, double temperature) const {
  const double duration = time - last_time_;
  const double slope = duration > 0.0 ? (temperature - last_temperature_) / duration : 0.0;
  double before = 0.0;
  double after = duration;
  for (int halving = 0; halving < 60; ++halving) {
    const double middle = 0.5 * (before + after);
    const double dose = equivalent_ + integral(last_temperature_ + slope * middle, middle);
    (dose < full_ ? before : after) = middle;
  }
  return last_time_ + after;
}

void ArrheniusDose::add(double time, double temperature) {
  if (std::isnan(temperature)) {
    seen_ = false;
    return;
  }
  if (seen_ && time > last_time_) {
    const double gained = integral(temperature, time - last_time_);
    if (!full_at_ && equivalent_ + gained >= full_) {
      full_at_ = when_full(time, temperature);
    }
    equivalent_ += gained;
  }
  seen_ = true;
  last_time_ = time;
  last_temperature_ = temperature;
  last_exponent_ = exponent(temperature);
  last_ratio_ = std::exp(last_exponent_);
}

}  // namespace ampstair::watch
