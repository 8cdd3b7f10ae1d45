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

}  // namespace ampstair::post::checks
