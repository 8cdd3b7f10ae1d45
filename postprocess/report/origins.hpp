// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace ampstair::post::report {

/// A line that tells from which datasets and tables of the record (RECORD_FORMAT.md) a table or
/// figure of the page is made, markup; empty for one that has no numbers of a record.
/// @param id of the table or figure
std::string origin_line(std::string_view id);

}  // namespace ampstair::post::report
