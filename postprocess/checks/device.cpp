// SPDX-License-Identifier: MIT
#include "checks/device.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

#include "checks/drive.hpp"

namespace ampstair::post::checks {

namespace {

/// When a level lies between two readings, s.
double passing(double t0, double i0, double t1, double i1, double level) {
  return i1 == i0 ? t0 : t0 + (level - i0) / (i1 - i0) * (t1 - t0);
}

/// When the current had been at a level or above for a time without a break.
std::optional<double> run_out(const std::vector<double>& times, const std::vector<double>& current,
                              double level, double within) {
  std::optional<double> since;
  for (std::size_t k = 0; k < times.size(); ++k) {
    const bool at_level = current[k] >= level;
    if (at_level && !since) {
      since = k > 0 && times[k] > times[k - 1]
                  ? passing(times[k - 1], current[k - 1], times[k], current[k], level)
                  : times[k];
    }
    if (since && times[k] >= *since + within) {
      return *since + within;
    }
    if (!at_level && since) {
      const double left = passing(times[k - 1], current[k - 1], times[k], current[k], level);
      if (left >= *since + within) {
        return *since + within;
      }
      since.reset();
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<Device> stored_device(const Histories& histories) {
  if (!histories.has("device/rating")) {
    return std::nullopt;
  }
  const auto rating = histories.numbers("device", "rating");
  if (rating.empty()) {
    return std::nullopt;
  }
  Device device;
  device.rating = rating.front();
  device.kind = histories.texts("device", "kind").front();
  device.source = histories.texts("device", "source").front();
  const double holds = histories.numbers("device", "must_hold").front();
  if (std::isfinite(holds)) {
    device.must_hold = holds;
  }
  if (histories.has("openings/times")) {
    const auto multiple = histories.numbers("openings", "times");
    const auto within = histories.numbers("openings", "within");
    for (std::size_t i = 0; i < multiple.size(); ++i) {
      device.must_open.push_back({multiple[i], within[i]});
    }
  }
  return device;
}

OpeningEnvelope envelope(const Device& device, const std::vector<double>& times,
                         const std::vector<double>& current) {
  OpeningEnvelope found;
  if (device.must_hold) {
    const double held = *device.must_hold * device.rating;
    for (std::size_t k = 0; k < times.size() && !found.earliest; ++k) {
      if (current[k] > held * (1.0 + 1e-9)) {
        found.earliest = k > 0 && current[k - 1] < held
                             ? passing(times[k - 1], current[k - 1], times[k], current[k], held)
                             : times[k];
      }
    }
  }
  for (const auto& opening : device.must_open) {
    // A share of a millionth: a current held at the multiple is at it.
    const double level = opening.times * device.rating * (1.0 - 1e-6);
    const auto time = run_out(times, current, level, opening.within);
    if (time && *time < found.latest.value_or(std::numeric_limits<double>::infinity())) {
      found.latest = time;
      found.by = opening;
    }
  }
  return found;
}

OpeningEnvelope envelope(const Device& device, const Histories& histories) {
  const Drive drive(histories);
  const auto got = histories.scalar("current");
  std::vector<double> times;
  std::vector<double> current;
  for (std::size_t row = 0; row < got.size(); ++row) {
    const std::size_t step = drive.step_of_row(row);
    if (row > 0 && step != drive.step_of_row(row - 1) && step < drive.steps().size()) {
      // No row holds the new current at the very begin: it jumps there, it does not climb.
      const double begin = std::clamp(drive.steps()[step].begin, times.back(), drive.times()[row]);
      times.insert(times.end(), {begin, begin});
      current.insert(current.end(), {got[row - 1], got[row]});
    }
    times.push_back(drive.times()[row]);
    current.push_back(got[row]);
  }
  return envelope(device, times, current);
}

Order order(const OpeningEnvelope& envelope, double crossing, double slack) {
  if (envelope.latest && std::abs(crossing - *envelope.latest) <= slack) {
    return Order::cannot_say;
  }
  if (envelope.latest && crossing > *envelope.latest) {
    return Order::device_first;
  }
  if (envelope.earliest && crossing < *envelope.earliest - slack) {
    return Order::cannot_have;
  }
  return Order::not_required;
}

}  // namespace ampstair::post::checks
