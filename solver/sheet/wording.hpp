// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sheet/declaration.hpp"

namespace ampstair::sheet {

/// For messages: cut after some 60 bytes, at a character's end, on one line.
std::string excerpt(std::string_view text);
/// "a, b or c".
std::string enumerated(const std::vector<std::string>& words, std::string_view last = " or ");
/// An example of what may stand under a key, as it would be written: "1.10 m", "[S1, T1]".
std::string example_of(const Key& key);
/// "a length in m, greater than 0.00 m, at most 1000.00 m" and the like, for the reference.
std::string describe_form(const Form& form);
/// "at least 0.02, at most 1.00"; empty without bounds.
std::string describe_bounds(const Bounds& bounds, Dimension dimension);
/// "required", "optional", "default 0.90 (source)".
std::string describe_need(const Key& key);

}  // namespace ampstair::sheet
