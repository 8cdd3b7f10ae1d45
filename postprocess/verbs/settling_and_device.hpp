// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "checks/verdict.hpp"

// Two parts of a verdict: how far each step came to rest, and what an overcurrent device has to do.

namespace ampstair::post::verbs {

/// Minutes by four published rules, and what is still to come; empty where no step is told.
std::string settling_text(const checks::Verdict& verdict);
/// Earliest and latest opening against every crossing; a line where no device is given.
std::string device_text(const checks::Verdict& verdict);

nlohmann::ordered_json settling_json(const checks::Verdict& verdict);  ///< a list, one a step
nlohmann::ordered_json device_json(const checks::Verdict& verdict);    ///< null without a device

}  // namespace ampstair::post::verbs
