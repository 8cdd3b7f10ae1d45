// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ampstair::post::tables {

/// One field after RFC 4180: quoted where it holds a comma, a quote or a line break, quotes
/// doubled.
std::string csv_field(std::string_view text);

/// One record after RFC 4180, with its line break (CR LF).
std::string csv_record(const std::vector<std::string>& fields);

/// A number as short as it can be and still be read back to the same; empty where it is not one.
/// @param single whether the value was stored in single precision
std::string csv_number(double value, bool single);

}  // namespace ampstair::post::tables
