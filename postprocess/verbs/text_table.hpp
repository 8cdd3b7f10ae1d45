// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace ampstair::post::verbs {

/// Characters (code points) of a UTF-8 text.
std::size_t length_of(std::string_view text);

/// The text if it fits, else its beginning with "…" as the last of `width` characters.
std::string cut_to(std::string_view text, std::size_t width);

/// A row of a table: every field cut to and filled up to its column's width, two spaces between,
/// no blanks at the end. A negative width means to the right.
struct Column {
  std::string heading;
  int width;
};
std::string table_row(const std::vector<Column>& columns, const std::vector<std::string>& fields);
std::string table_heading(const std::vector<Column>& columns);

/// A sentence broken into lines of at most 100 characters, each indented; "118.2 ± 0.1 °C" stays on
/// one.
std::string paragraph(std::string_view text, std::size_t indent);

}  // namespace ampstair::post::verbs
