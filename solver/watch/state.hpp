// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

namespace ampstair::watch {

/// How a place, a part or a whole run stands against a watch item. Clear means clear of the limit
/// that was stated and nothing more.
enum class State { clear, near, crossed, cannot_say };

/// K below a limit from which a temperature counts as near it: our choice, about what a type K
/// thermocouple leaves open (2.2 K, as instrument makers quote it).
inline constexpr double near_margin = 2.0;

/// "clear", "near", "crossed", "cannot say".
std::string_view name_of(State state);

}  // namespace ampstair::watch
