// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "checks/histories.hpp"

namespace ampstair::post::checks {

/// How far a record's temperatures may be from the solution of the model's equations.
class ErrorBars {
 public:
  explicit ErrorBars(const Histories& histories);

  /// K, of all temperatures; none of a record that is unfinished or older than format 1.2.
  [[nodiscard]] std::optional<double> of_time() const { return of_time_; }
  /// K, the largest of all; none where the record has no bars of the grid's error.
  [[nodiscard]] std::optional<double> greatest_of_grid() const { return greatest_of_grid_; }
  /// K, at a place of a history and at a moment that has a row; none where the record has no bar.
  [[nodiscard]] std::optional<double> of_grid(const std::string& history, double time,
                                              std::size_t place) const;
  /// s, of the moment at which a place passes a level while it warms: the temperature's bar over
  /// its slope there; none without bars, or where it does not warm.
  [[nodiscard]] std::optional<double> of_passing(const std::string& history, double time,
                                                 std::size_t place) const;

 private:
  const Histories& histories_;
  std::vector<double> times_;
  std::optional<double> of_time_;
  std::optional<double> greatest_of_grid_;
};

}  // namespace ampstair::post::checks
