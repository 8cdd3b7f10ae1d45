// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace ampstair::diagnostics {

/// The known words a mistyped one is likely meant to be, the likeliest first, at most three; empty
/// where none is near (one slip in three letters).
std::vector<std::string> nearest_words(std::string_view written,
                                       std::span<const std::string> known);

}  // namespace ampstair::diagnostics
