// SPDX-License-Identifier: MIT
#pragma once

namespace ampstair::history {

// Defined in a file that the build writes (build_facts.cpp.in), so that a new commit recompiles
// that one file only.
extern const char* const build_program;
extern const char* const build_commit;
extern const char* const build_compiler;
extern const char* const build_kind;

}  // namespace ampstair::history
