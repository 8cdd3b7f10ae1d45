// SPDX-License-Identifier: MIT
#pragma once

#include <source_location>

namespace ampstair::diagnostics {

/// Prints where a contract was broken and aborts: a fault of the program, never of a user's input.
[[noreturn]] void contract_broken(const char* promise, const std::source_location& where);

/// A promise one part of the program makes to another. Checked in developer builds only; what a
/// user can get wrong is never checked here but reported as a Problem.
constexpr void expects(
    [[maybe_unused]] bool kept, [[maybe_unused]] const char* promise,
    [[maybe_unused]] const std::source_location& where = std::source_location::current()) {
#ifdef AMPSTAIR_CONTRACTS
  if (!kept) {
    contract_broken(promise, where);
  }
#endif
}

}  // namespace ampstair::diagnostics
