// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

// Files of resources/ and the charting library, carried in the program so that a page needs nothing
// from anywhere. Made by embed.cmake.

namespace ampstair::post::report::resources {

std::string_view style();    ///< page.css
std::string_view script();   ///< page.js
std::string_view figures();  ///< the figures' specifications, a JSON object by name
std::string_view charts();   ///< the charting library with its licence in a comment

}  // namespace ampstair::post::report::resources
