// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "diagnostics/problem.hpp"

namespace ampstair::sheet {

/// No run sheet is larger; noise is not worth parsing.
constexpr std::size_t most_bytes = std::size_t{4} * 1024 * 1024;

/// The bytes of a file, or nothing and a Problem: missing, a directory, unreadable, too large.
std::optional<std::string> read_bytes(const std::filesystem::path& path,
                                      diagnostics::ProblemList& problems);

/// Whether the bytes are UTF-8 text without control characters; names the first bad one.
bool is_text(std::string_view bytes, const std::string& name, diagnostics::ProblemList& problems);

/// Column as editors count it (characters, from 1) of a byte of a line (from 0).
int column_of(std::string_view line, std::size_t byte);

}  // namespace ampstair::sheet
