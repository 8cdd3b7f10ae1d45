// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ampstair::diagnostics {

/// The words most like a mistyped one, the likeliest first; empty where none is near.
/// Nearness is the number of characters inserted, dropped, changed or swapped with a neighbour.
std::vector<std::string> nearest_words(std::string_view mistyped,
                                       const std::vector<std::string>& words);

}  // namespace ampstair::diagnostics
