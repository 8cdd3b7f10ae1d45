// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "checks/findings.hpp"
#include "checks/histories.hpp"
#include "diagnostics/exit_code.hpp"
#include "watch/item.hpp"

namespace ampstair::post::checks {

/// Judges a record by watch items; nothing is marched again, and every history is read once.
///
/// An item is crossed where the best limit was exceeded for its persistence at any place of its
/// part; near where it was not, but the low end of the limit's band was, or a place came within
/// watch::near_margin; clear otherwise. Cannot say: the part is not in the record, the record is
/// unfinished and the item not crossed yet, or char has begun somewhere (see ItemFinding::remark).
Findings judge(const Histories& histories, const std::vector<watch::Item>& items);

/// What the shell is told: crossed; else undecided where an item is near or cannot be judged, or
/// there is no item at all; else clear.
diagnostics::ExitCode exit_code(const Findings& findings);

}  // namespace ampstair::post::checks
