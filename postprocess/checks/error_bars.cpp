// SPDX-License-Identifier: MIT
#include "checks/error_bars.hpp"

#include <algorithm>
#include <cmath>

namespace ampstair::post::checks {

namespace {

std::optional<double> known(std::optional<double> bar) {
  return bar && std::isfinite(*bar) && *bar >= 0.0 ? bar : std::nullopt;
}

}  // namespace

ErrorBars::ErrorBars(const Histories& histories)
    : histories_(histories),
      times_(histories.times()),
      of_time_(known(histories.closing("time_error"))),
      greatest_of_grid_(known(histories.closing("grid_error"))) {}

std::optional<double> ErrorBars::of_grid(const std::string& history, double time,
                                         std::size_t place) const {
  const std::string bars = history + "_grid_error";
  const auto row = std::lower_bound(times_.begin(), times_.end(), time);
  if (row == times_.end() || !histories_.has(bars)) {
    return std::nullopt;
  }
  const auto values = histories_.rows(bars, static_cast<std::size_t>(row - times_.begin()), 1);
  return place < values.size() ? known(values[place]) : std::nullopt;
}

std::optional<double> ErrorBars::of_passing(const std::string& history, double time,
                                            std::size_t place) const {
  constexpr double apart = 1.0;  // s, so that single precision does not count in the slope
  const auto after = std::lower_bound(times_.begin(), times_.end(), time);
  auto before = std::upper_bound(times_.begin(), after, time - apart);
  if (after == times_.end() || before == times_.begin()) {
    return std::nullopt;
  }
  --before;
  const auto error = std::max(of_grid(history, *before, place), of_grid(history, *after, place));
  if (!error || !of_time_) {
    return std::nullopt;
  }
  const auto temperature = [&](auto row) {
    return histories_.rows(history, static_cast<std::size_t>(row - times_.begin()), 1).at(place);
  };
  const double slope = (temperature(after) - temperature(before)) / (*after - *before);
  return slope > 0.0 ? std::optional((*of_time_ + *error) / slope) : std::nullopt;
}

}  // namespace ampstair::post::checks
