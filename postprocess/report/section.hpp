// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "checks/findings.hpp"
#include "checks/histories.hpp"

namespace ampstair::post::report {

/// The fields of a record near the places worth a look, cell by cell: the hottest place of the
/// conductor and the middle of every tube and knob, at most four.
/// [{name, from_m, to_m, materials: [...], begin_mm, end_mm, inner_mm, outer_mm, material: [...],
///   minute: [...], degC: [[per cell], ...]}]; begin and end count from from_m. Empty where the
/// record keeps no fields.
nlohmann::json sections(const checks::Histories& histories, const checks::Findings& findings);

}  // namespace ampstair::post::report
