// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "diagnostics/exit_code.hpp"

namespace ampstair::post::verbs {

/// What the command line holds after the verb's own name.
using Arguments = std::span<const std::string>;

/// A verb reads its own options, answers `--help` and returns what the shell is told. It throws
/// diagnostics::InputError for run() to tell the user.
struct Verb {
  std::string_view name;
  std::string_view help;
  diagnostics::ExitCode (*act)(Arguments arguments);
};

/// Judges a record by its watch items, or by others.
diagnostics::ExitCode verdict(Arguments arguments);
/// Tells where the heat of places comes from and goes.
diagnostics::ExitCode budget(Arguments arguments);
/// Sets records on one clock: what differs in their sheets, and what it did.
diagnostics::ExitCode compare(Arguments arguments);
/// Tells what a record holds.
diagnostics::ExitCode show(Arguments arguments);
/// Writes what a record holds in other formats.
diagnostics::ExitCode export_record(Arguments arguments);
/// Prints the schema of an export or a verdict.
diagnostics::ExitCode schema(Arguments arguments);
/// Writes a page that tells what one or more records hold.
diagnostics::ExitCode report(Arguments arguments);

/// The whole program: finds the verb, runs it, prints the user's faults.
/// @param arguments the command line without the program's name
diagnostics::ExitCode run(Arguments arguments);

}  // namespace ampstair::post::verbs
