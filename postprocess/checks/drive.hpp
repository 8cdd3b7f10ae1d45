// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "checks/histories.hpp"

namespace ampstair::post::checks {

/// A step of the staircase as the record's table "steps" has it.
struct StaircaseStep {
  std::string kind;
  double level = 0.0;    ///< A or V
  double begin = 0.0;    ///< s; as marched, where steps before it ended by a rule
  double end = 0.0;      ///< s; as marched, where the record goes on past it
  std::string course;    ///< held, ramp or load; empty in records before format 1.3
  std::string until;     ///< rule that ends it when it holds, else empty
  bool settled = false;  ///< and it held
};

/// Which rows belong to which step, and what current flowed when.
class Drive {
 public:
  explicit Drive(const Histories& histories);

  [[nodiscard]] const std::vector<double>& times() const { return times_; }  ///< s, a row each
  [[nodiscard]] const std::vector<StaircaseStep>& steps() const { return steps_; }
  /// Index of the step a row's current belongs to.
  [[nodiscard]] std::size_t step_of_row(std::size_t row) const { return row_steps_[row]; }
  /// Index of the step that led to a moment: the one that ends there where two meet.
  [[nodiscard]] std::optional<std::size_t> step_at(double time) const;
  /// A; between rows of one step linear, never across a jump of the staircase.
  [[nodiscard]] std::optional<double> current_at(double time) const;

 private:
  [[nodiscard]] std::vector<std::size_t> steps_of_rows(const Histories& histories) const;
  void end_by_rules(const Histories& histories);

  std::vector<double> times_;
  std::vector<StaircaseStep> steps_;
  std::vector<double> current_;
  std::vector<std::size_t> row_steps_;
};

}  // namespace ampstair::post::checks
