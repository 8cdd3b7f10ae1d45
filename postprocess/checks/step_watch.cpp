// SPDX-License-Identifier: MIT
#include "checks/step_watch.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ampstair::post::checks {

namespace {

constexpr double rounding = 1e-6;  // s

/// A scalar history of the record, or nothing.
std::vector<double> scalar_or_nothing(const Histories& histories, const std::string& name) {
  return histories.has(name) ? histories.scalar(name) : std::vector<double>{};
}

std::optional<double> at(const std::vector<double>& column, std::size_t row) {
  return row < column.size() && !std::isnan(column[row]) ? std::optional(column[row])
                                                         : std::nullopt;
}

void widen(const std::optional<double>& value, StepFinding& step) {
  if (value) {
    step.got_least = std::min(step.got_least.value_or(*value), *value);
    step.got_greatest = std::max(step.got_greatest.value_or(*value), *value);
  }
}

}  // namespace

StepWatch::StepWatch(std::string part, const Drive& drive)
    : part_(std::move(part)), drive_(drive), steps_(drive.steps().size()) {}

void StepWatch::take(std::size_t /*row*/, double time, std::span<const double> temperatures) {
  std::optional<Hot> here;
  for (std::size_t place = 0; place < temperatures.size(); ++place) {
    const double value = temperatures[place];
    if (!std::isnan(value) && (!here || value > here->temperature)) {
      here = Hot{value, time, place};
    }
  }
  if (!here) {
    return;
  }
  if (!greatest_ || here->temperature > greatest_->temperature) {
    greatest_ = here;
  }
  // Temperatures do not jump: a row where two steps meet ends the earlier one, whatever the drive.
  const auto step = drive_.step_at(time);
  if (!step) {
    return;
  }
  auto& of_step = steps_[*step];
  of_step.at_end = here;
  if (!of_step.greatest || here->temperature > of_step.greatest->temperature) {
    of_step.greatest = here;
  }
}

std::optional<PartInStep> StepWatch::in_step(std::size_t step, const Ground& ground) const {
  const auto& found = steps_.at(step);
  if (!found.at_end) {
    return std::nullopt;
  }
  const auto reading = [&](const Hot& hot) {
    return ground.reading(hot.temperature, hot.time, hot.place);
  };
  return PartInStep{part_, reading(*found.at_end), reading(*found.greatest)};
}

std::optional<StepWatch::Greatest> StepWatch::over_all(const Ground& ground) const {
  if (!greatest_) {
    return std::nullopt;
  }
  return Greatest{ground.reading(greatest_->temperature, greatest_->time, greatest_->place),
                  drive_.step_at(greatest_->time)};
}

std::vector<StepFinding> drive_findings(const Histories& histories, const Drive& drive) {
  const auto asked = scalar_or_nothing(histories, "current_asked");
  const auto got = scalar_or_nothing(histories, "current");
  const auto voltage = scalar_or_nothing(histories, "voltage");
  const auto power = scalar_or_nothing(histories, "power");
  std::vector<StepFinding> findings;
  for (const StaircaseStep& step : drive.steps()) {
    StepFinding finding;
    finding.number = findings.size() + 1;
    finding.kind = step.kind;
    finding.level = step.level;
    finding.begin = step.begin;
    finding.end = step.end;
    finding.course = step.course;
    finding.until = step.until;
    finding.settled = step.settled;
    finding.complete = !drive.times().empty() && drive.times().back() >= step.end - rounding;
    findings.push_back(std::move(finding));
  }
  for (std::size_t row = 0; row < drive.times().size() && !findings.empty(); ++row) {
    auto& step = findings[drive.step_of_row(row)];
    step.reached = true;
    step.asked = at(asked, row);
    step.got = at(got, row);
    widen(step.got, step);
    step.voltage = at(voltage, row);
    step.power = at(power, row);
  }
  return findings;
}

}  // namespace ampstair::post::checks
