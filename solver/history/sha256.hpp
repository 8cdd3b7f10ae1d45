// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace ampstair::history {

/// SHA-256 (FIPS 180-4) of the bytes of `text` as 64 lower-case hexadecimal digits.
std::string sha256(std::string_view text);
/// The same of a file's bytes, read a megabyte at a time.
/// @throws diagnostics::InputError: it cannot be read
std::string sha256_of_file(const std::filesystem::path& path);

}  // namespace ampstair::history
