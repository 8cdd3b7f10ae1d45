// SPDX-License-Identifier: MIT
#pragma once

#include "history/layout.hpp"
#include "scenario/run_sheet.hpp"

namespace ampstair::verbs {

/// The table "sheet": all that the run sheet says and leaves to defaults, value by value.
/// @param sheet with the changes of its arrangement made
history::Table sheet_table(const scenario::RunSheet& sheet);

}  // namespace ampstair::verbs
