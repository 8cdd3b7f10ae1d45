// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace ampstair::history {

/// SHA-256 (FIPS 180-4) of the bytes of `text` as 64 lower-case hexadecimal digits.
std::string sha256(std::string_view text);

}  // namespace ampstair::history
