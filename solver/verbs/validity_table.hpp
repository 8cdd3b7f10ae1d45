// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "history/layout.hpp"
#include "marching/flag.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::verbs {

/// The table "validity" of a record.
history::Table validity_table(const std::vector<marching::Flag>& flags);

/// A line for people: code, minute, what, value against limit, where.
std::string flag_words(const marching::Flag& flag, const scenario::Scenario& scenario);

}  // namespace ampstair::verbs
