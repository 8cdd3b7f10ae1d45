// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace ampstair::sheet {

// What the raw scan (raw_scan.cpp) asks of pieces of a line, and how it words the slips it finds.

bool digit(char c);
bool blank(char c);
/// Bytes of white space a line begins with.
std::size_t indent_of(std::string_view line);
/// Bytes of a typeset quotation mark at i, else 0: U+2018 to U+201F.
std::size_t typeset_quote(std::string_view line, std::size_t i);
/// Whether "|" or ">" here begins a text over the lines that follow.
bool begins_block_scalar(std::string_view rest);
/// Closing brackets in a comment's text that close nothing within it.
int closers_hidden(std::string_view comment);

struct Slip {
  std::string what;
  std::string remedy;
};

/// @param comment the text after '#'
/// @param empty_key the key left without a value, or empty
/// @param unclosed the bracket whose closing is in the comment, or '\0'
Slip comment_slip(std::string_view comment, const std::string& empty_key, char unclosed);
/// @param rest from the number's first digit on, "0,5 mm, ..."
Slip decimal_comma_slip(std::string_view rest);
Slip anchor_slip(const std::string& word);

}  // namespace ampstair::sheet
