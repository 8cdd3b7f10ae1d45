// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json.hpp>
#include <optional>

#include "checks/findings.hpp"

// Findings as JSON, as VERDICT.md tells them; null where there is nothing to say.

namespace ampstair::post::verbs {

using Json = nlohmann::ordered_json;

template <class Value>
Json or_null(const std::optional<Value>& value) {
  return value ? Json(*value) : Json(nullptr);
}

/// Adds `position_m` and `place`.
void put_spot(Json& object, const checks::Spot& spot);
Json reading_json(const std::optional<checks::Reading>& value);
Json crossing_json(const std::optional<checks::Crossing>& value);
/// What a record says of itself.
Json heading_json(const checks::Heading& heading);
Json step_json(const checks::StepFinding& finding);
Json item_json(const checks::ItemFinding& finding);

}  // namespace ampstair::post::verbs
