// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "checks/drive.hpp"
#include "checks/findings.hpp"
#include "checks/item_watch.hpp"
#include "checks/scan.hpp"

namespace ampstair::post::checks {

/// The hottest place of one part, step by step.
class StepWatch final : public RowTaker {
 public:
  StepWatch(std::string part, const Drive& drive);

  void take(std::size_t row, double time, std::span<const double> temperatures) override;

  [[nodiscard]] const std::string& part() const { return part_; }
  /// @param step index from 0; nothing where no row of it had a number
  [[nodiscard]] std::optional<PartInStep> in_step(std::size_t step, const Ground& ground) const;
  /// Over all rows, with the index of the step.
  struct Greatest {
    Reading reading;
    std::optional<std::size_t> step;
  };
  [[nodiscard]] std::optional<Greatest> over_all(const Ground& ground) const;

 private:
  struct Hot {
    double temperature = 0.0;
    double time = 0.0;
    std::size_t place = 0;
  };
  struct InStep {
    std::optional<Hot> at_end;
    std::optional<Hot> greatest;
  };

  std::string part_;
  const Drive& drive_;
  std::vector<InStep> steps_;
  std::optional<Hot> greatest_;
};

/// The electrical side of every step, from the scalar histories.
std::vector<StepFinding> drive_findings(const Histories& histories, const Drive& drive);

}  // namespace ampstair::post::checks
