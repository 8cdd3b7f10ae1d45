// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "report/source.hpp"

namespace ampstair::post::report {

/// T13: where the heat of the hottest place of every step comes from and goes, and that of every
/// place of the hottest step.
std::string heat_budget(const Source& source);

/// The bars of the step with the hottest conductor: [{place, flow, watts}], W/m, > 0 comes in.
/// Empty where the record holds no budget.
nlohmann::json budget_bars(const Source& source);

}  // namespace ampstair::post::report
