// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "checks/findings.hpp"
#include "checks/histories.hpp"

namespace ampstair::post::checks {

/// What a reader of a verdict must know beside its tables, a sentence each: whether there is a
/// band on anything, whether the conductor melted or parted, what a buried run, a dose or an
/// unfinished record does not allow.
std::vector<std::string> notes_on(const Findings& findings, const Histories& histories);

}  // namespace ampstair::post::checks
