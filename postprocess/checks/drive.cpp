// SPDX-License-Identifier: MIT
#include "checks/drive.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ampstair::post::checks {

namespace {

// Rows are written at step ends to the last bit or nearly so.
constexpr double rounding = 1e-6;  // s

std::vector<StaircaseStep> staircase_of(const Histories& histories) {
  std::vector<StaircaseStep> steps;
  if (!histories.has("steps/kind")) {
    return steps;
  }
  const auto kinds = histories.texts("steps", "kind");
  const auto levels = histories.numbers("steps", "level");
  const auto begins = histories.numbers("steps", "begin");
  const auto ends = histories.numbers("steps", "end");
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    steps.push_back({kinds[i], levels.at(i), begins.at(i), ends.at(i), {}, {}, false});
  }
  if (histories.has("steps/until")) {
    const auto courses = histories.texts("steps", "course");
    const auto rules = histories.texts("steps", "until");
    for (std::size_t i = 0; i < steps.size(); ++i) {
      steps[i].course = courses.at(i);
      steps[i].until = rules.at(i);
    }
  }
  return steps;
}

}  // namespace

Drive::Drive(const Histories& histories)
    : times_(histories.times()), steps_(staircase_of(histories)) {
  if (histories.has("current")) {
    current_ = histories.scalar("current");
  }
  row_steps_ = steps_of_rows(histories);
  end_by_rules(histories);
}

/// Steps that end by a rule end before they are planned to, and those after them come earlier.
void Drive::end_by_rules(const Histories& histories) {
  if (std::all_of(steps_.begin(), steps_.end(), [](auto& step) { return step.until.empty(); })) {
    return;
  }
  std::size_t row = 0;
  double begin = 0.0;
  for (std::size_t i = 0; i < steps_.size(); ++i) {
    StaircaseStep& step = steps_[i];
    const double planned = step.end - step.begin;
    while (row < times_.size() && row_steps_[row] <= i) {
      ++row;
    }
    const bool over =
        row > 0 && row_steps_[row - 1] == i && (row < times_.size() || histories.finished());
    step.settled = over && !step.until.empty() && times_[row - 1] < begin + planned - rounding;
    step.begin = begin;
    step.end = step.settled ? times_[row - 1] : begin + planned;
    begin = step.end;
  }
}

std::vector<std::size_t> Drive::steps_of_rows(const Histories& histories) const {
  std::vector<std::size_t> of_rows(times_.size(), 0);
  const std::size_t last = steps_.empty() ? 0 : steps_.size() - 1;
  if (histories.has("step")) {
    const auto told = histories.scalar("step");
    for (std::size_t row = 0; row < of_rows.size() && row < told.size(); ++row) {
      of_rows[row] = std::min(last, static_cast<std::size_t>(std::max(0.0, std::round(told[row]))));
    }
    return of_rows;
  }
  for (std::size_t row = 0; row < of_rows.size(); ++row) {
    of_rows[row] = step_at(times_[row]).value_or(0);
  }
  return of_rows;
}

std::optional<std::size_t> Drive::step_at(double time) const {
  for (std::size_t i = 0; i < steps_.size(); ++i) {
    if (time <= steps_[i].end + rounding) {
      return i;
    }
  }
  return steps_.empty() ? std::nullopt : std::optional(steps_.size() - 1);
}

std::optional<double> Drive::current_at(double time) const {
  if (current_.empty() || times_.empty()) {
    return std::nullopt;
  }
  const auto upper = std::lower_bound(times_.begin(), times_.end(), time);
  const auto after =
      static_cast<std::size_t>(std::min(upper - times_.begin(), std::ssize(times_) - 1));
  if (after == 0) {
    return current_[after];
  }
  const std::size_t before = after - 1;
  if (row_steps_[before] != row_steps_[after]) {
    return current_[step_at(time) == row_steps_[after] ? after : before];
  }
  const double apart = times_[after] - times_[before];
  const double part = apart > 0.0 ? std::min(1.0, (time - times_[before]) / apart) : 1.0;
  return current_[before] + part * (current_[after] - current_[before]);
}

}  // namespace ampstair::post::checks
