// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "checks/device.hpp"
#include "checks/findings.hpp"
#include "checks/histories.hpp"
#include "checks/step_settling.hpp"
#include "watch/item.hpp"

namespace ampstair::post::checks {

/// All that is judged of one record.
struct Verdict {
  Findings findings;
  std::vector<StepSettling> settling;
  std::optional<Device> device;  ///< none where the run sheet names none
  OpeningEnvelope opening;       ///< of the device, where there is one
};

/// Judges a record by watch items; nothing is marched again.
Verdict verdict_on(const Histories& histories, const std::vector<watch::Item>& items);

}  // namespace ampstair::post::checks
