// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "checks/findings.hpp"

namespace ampstair::post::verbs {

/// The letter and shape of a state: "C ○", "N ◐", "X ●", "? ◇". Never colour alone.
std::string_view mark_of(watch::State state);

/// The limit of an item as a reader knows it: "> 60 °C for 3.0 min", "1000 h at 50 °C".
std::string limit_text(const watch::Item& item);

/// The verdict as tables of at most 100 characters a line; the last two lines are the cautions.
/// @param record name of the record, for the heading
std::string verdict_text(const checks::Findings& findings, const std::string& record);

}  // namespace ampstair::post::verbs
