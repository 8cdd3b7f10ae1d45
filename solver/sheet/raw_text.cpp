// SPDX-License-Identifier: MIT
#include "sheet/raw_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "sheet/wording.hpp"

namespace ampstair::sheet {

bool digit(char c) {
  return std::isdigit(static_cast<unsigned char>(c)) != 0;
}
bool blank(char c) {
  return c == ' ' || c == '\t';
}
std::size_t indent_of(std::string_view line) {
  return std::min(line.find_first_not_of(" \t"), line.size());
}

/// Bytes of a typeset quotation mark at i, else 0: U+2018..U+201F.
std::size_t typeset_quote(std::string_view line, std::size_t i) {
  const bool is = i + 2 < line.size() && line[i] == '\xE2' && line[i + 1] == '\x80' &&
                  line[i + 2] >= '\x98' && line[i + 2] <= '\x9F';
  return is ? 3 : 0;
}

bool begins_block_scalar(std::string_view rest) {
  auto end = std::min(rest.find_first_not_of("|>+-0123456789"), rest.size());
  const auto after = std::min(rest.find_first_not_of(" \t", end), rest.size());
  return after == rest.size() || (rest[after] == '#' && after > end);
}

/// Closing brackets in a comment's text that close nothing within it.
int closers_hidden(std::string_view comment) {
  int open = 0;
  int hidden = 0;
  for (const char c : comment) {
    if (c == '{' || c == '[') {
      ++open;
    } else if (c == '}' || c == ']') {
      open > 0 ? --open : ++hidden;
    }
  }
  return hidden;
}

Slip comment_slip(std::string_view comment, const std::string& empty_key, char unclosed) {
  const auto end = std::min(comment.find_first_of(" ,}]"), comment.size());
  const std::string word = excerpt(comment.substr(0, end));
  std::string so = empty_key.empty() ? "" : fmt::format("'{}' is empty", excerpt(empty_key));
  if (unclosed != '\0') {
    so += fmt::format("{}this line's '{}' is never closed", so.empty() ? "" : " and ", unclosed);
  }
  Slip slip{fmt::format("the text after a space and '#' is a comment in YAML, so {}.", so),
            "leave the '#' out, or put the whole text in quotes"};
  if (!empty_key.empty() && !word.empty() && digit(word[0])) {
    slip.remedy = fmt::format("write  {0}: No. {1}   or   {0}: '#{1}'", excerpt(empty_key), word);
  }
  return slip;
}

Slip decimal_comma_slip(std::string_view rest) {
  const auto comma = rest.find(',');
  const auto end = std::min(rest.find_first_not_of("0123456789", comma + 1), rest.size());
  const auto stop = std::min(rest.find_first_of(",}]", end), rest.size());
  std::string mended(rest.substr(0, stop));
  mended[comma] = '.';
  return {fmt::format("'{}' uses a decimal comma (and inside {{ }} YAML splits it in two).",
                      excerpt(rest.substr(0, end))),
          fmt::format("write {}", excerpt(mended))};
}

Slip anchor_slip(const std::string& word) {
  const bool alias = word[0] == '*';
  const std::string kind = word[0] == '&' ? "an anchor" : alias ? "an alias" : "a tag";
  return {fmt::format("'{}' is {} in YAML; sheets hold none, so that each reads the same to "
                      "everybody.",
                      excerpt(word), kind),
          alias ? "write the value out, or put the text in quotes"
                : "leave it out, or put the text in quotes"};
}

}  // namespace ampstair::sheet
