// SPDX-License-Identifier: MIT
#include "watch/tracker.hpp"

namespace ampstair::watch {

namespace {

double level_of(const Item& item) {
  return item.kind == Item::Kind::char_depth ? item.isotherm : item.limit;
}

std::optional<Exceedance> end_of_band(const Item& item, const std::optional<double>& level) {
  if (item.kind != Item::Kind::above || !level) {
    return std::nullopt;
  }
  return Exceedance(*level, item.persistence);
}

ArrheniusDose dose_of(const Item& item, double energy) {
  return {energy, item.reference_temperature, item.reference_duration};
}

std::optional<ArrheniusDose> dose_at_end(const Item& item, const std::optional<double>& energy) {
  if (!energy) {
    return std::nullopt;
  }
  return dose_of(item, *energy);
}

bool full(const std::optional<ArrheniusDose>& dose) {
  return dose && dose->full_at();
}

}  // namespace

LimitTracker::LimitTracker(const Item& item)
    : limit_(level_of(item)),
      best_(limit_, item.kind == Item::Kind::above ? item.persistence : 0.0),
      low_(end_of_band(item, item.low)),
      high_(end_of_band(item, item.high)) {}

void LimitTracker::add(double time, double temperature) {
  peak_.add(time, temperature);
  best_.add(time, temperature);
  if (low_) {
    low_->add(time, temperature);
  }
  if (high_) {
    high_->add(time, temperature);
  }
}

State LimitTracker::state() const {
  if (!peak_.seen()) {
    return State::cannot_say;
  }
  if (best_.crossed()) {
    return State::crossed;
  }
  const bool low_end = low_ && low_->crossed();
  return low_end || peak_.value() >= limit_ - near_margin ? State::near : State::clear;
}

DoseTracker::DoseTracker(const Item& item)
    : best_(dose_of(item, item.activation_energy)),
      warmer_(best_),
      low_(dose_at_end(item, item.energy_low)),
      high_(dose_at_end(item, item.energy_high)) {}

void DoseTracker::add(double time, double temperature) {
  peak_.add(time, temperature);
  best_.add(time, temperature);
  warmer_.add(time, temperature + near_margin);
  if (low_) {
    low_->add(time, temperature);
  }
  if (high_) {
    high_->add(time, temperature);
  }
}

State DoseTracker::state() const {
  if (!peak_.seen()) {
    return State::cannot_say;
  }
  if (best_.full_at()) {
    return State::crossed;
  }
  return warmer_.full_at() || full(low_) || full(high_) ? State::near : State::clear;
}

}  // namespace ampstair::watch
