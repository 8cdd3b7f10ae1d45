// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "checks/verdict.hpp"

namespace ampstair::post::verbs {

/// The verdict as tables of at most 100 characters a line; the last two lines are the cautions.
/// @param record name of the record, for the heading
std::string verdict_text(const checks::Verdict& verdict, const std::string& record);

}  // namespace ampstair::post::verbs
