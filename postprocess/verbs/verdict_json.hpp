// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "checks/verdict.hpp"

namespace ampstair::post::verbs {

/// The verdict as JSON (VERDICT.md tells every key): SI or degC, the unit in the key's name, keys
/// always present and in the same order, null where there is nothing to say.
/// @param record name of the record as given
std::string verdict_json(const checks::Verdict& verdict, const std::string& record);

}  // namespace ampstair::post::verbs
