// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string>

#include "diagnostics/exit_code.hpp"

namespace ampstair::verbs {

/// What the command line holds after the verb's own name.
using Arguments = std::span<const std::string>;

/// Every verb reads its own options, answers `--help` and returns what the shell is told.
/// @throws diagnostics::InputError: told to the user by main(), which returns bad_input
using Verb = diagnostics::ExitCode (*)(Arguments arguments);

/// Reads a run sheet, lists all its faults at once, else prints the run ledger and the steps.
diagnostics::ExitCode check(Arguments arguments);
/// Marches a run sheet and writes its record.
diagnostics::ExitCode run(Arguments arguments);
/// Prints every key a run sheet may hold, or its JSON Schema.
diagnostics::ExitCode keys(Arguments arguments);
/// Lists the materials a run sheet may name, or prints everything some of them hold.
diagnostics::ExitCode materials(Arguments arguments);

}  // namespace ampstair::verbs
