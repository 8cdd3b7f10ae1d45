// SPDX-License-Identifier: MIT
#pragma once

#include <iosfwd>

#include "scenario/scenario.hpp"

namespace ampstair::verbs {

/// The run ledger: every piece with where it lies, what surrounds it and how well its numbers are
/// sourced; then the steps.
void print_ledger(std::ostream& out, const scenario::Scenario& scenario);

}  // namespace ampstair::verbs
