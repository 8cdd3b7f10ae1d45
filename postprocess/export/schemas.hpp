// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

// The files of schemas/, carried in the program: JSON Schema, draft 2020-12.

namespace ampstair::post::tables {

std::string_view compare_schema();  ///< of what a comparison prints as JSON
std::string_view export_schema();   ///< of what export_json() writes
std::string_view verdict_schema();  ///< of what the verdict prints as JSON

}  // namespace ampstair::post::tables
