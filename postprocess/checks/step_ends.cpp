// SPDX-License-Identifier: MIT
#include "checks/step_ends.hpp"

#include <algorithm>
#include <cmath>

#include "checks/drive.hpp"
#include "checks/zero_celsius.hpp"

namespace ampstair::post::checks {

std::vector<StepEnd> step_ends(const Histories& histories) {
  const Drive drive(histories);
  std::vector<StepEnd> ends;
  for (std::size_t row = 0; row < drive.times().size(); ++row) {
    const std::size_t number = drive.step_of_row(row) + 1;
    if (ends.empty() || ends.back().number != number) {
      ends.push_back({number, row});
    }
    ends.back().row = row;
  }
  return ends;
}

std::size_t place_near(const std::vector<double>& positions, double position) {
  const auto nearest = std::min_element(
      positions.begin(), positions.end(),
      [&](double a, double b) { return std::abs(a - position) < std::abs(b - position); });
  return static_cast<std::size_t>(nearest - positions.begin());
}

double kelvin_near(const Histories& histories, const std::string& history, double position,
                   std::size_t row) {
  std::string axis = "position";
  for (const auto& series : histories.series()) {
    if (series.naming.name == history) {
      axis = series.axis;
    }
  }
  return celsius_zero + histories.rows(history, row, 1)[place_near(histories.axis(axis), position)];
}

}  // namespace ampstair::post::checks
