// SPDX-License-Identifier: MIT
#include "watch/exceedance.hpp"

#include <algorithm>
#include <cmath>

namespace ampstair::watch {

void Peak::take(double time, double value) {
  if (std::isnan(value)) {
    return;
  }
  value_ = value;
  time_ = time;
  seen_ = true;
}

Exceedance::Exceedance(double level, double persistence)
    : level_(level), persistence_(persistence) {}

void Exceedance::add(double time, double value) {
  if (std::isnan(value)) {
    seen_ = false;
    above_ = false;
    return;
  }
  const bool above = value > level_;
  if (above && !above_) {
    rise(seen_ ? meets_level(time, value) : time);
  }
  if (above) {
    extend(time);
  } else if (above_) {
    extend(meets_level(time, value));
  }
  above_ = above;
  seen_ = true;
  last_time_ = time;
  last_value_ = value;
}

double Exceedance::meets_level(double time, double value) const {
  const double part = (level_ - last_value_) / (value - last_value_);
  return last_time_ + part * (time - last_time_);
}

void Exceedance::rise(double when) {
  rose_ = when;
  if (!first_above_) {
    first_above_ = when;
  }
}

void Exceedance::extend(double until) {
  const double stretch = until - rose_;
  longest_ = std::max(longest_, stretch);
  last_above_ = until;
  if (!crossed_ && stretch >= persistence_) {
    crossed_ = rose_ + persistence_;
    crossing_rose_ = rose_;
  }
}

}  // namespace ampstair::watch
