// SPDX-License-Identifier: MIT
#include "quantities/number_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <system_error>

namespace ampstair::quantities {

namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

std::size_t digits_at(std::string_view text, std::size_t from) {
  std::size_t n = 0;
  while (from + n < text.size() && is_digit(text[from + n])) {
    ++n;
  }
  return n;
}

double whole(std::string_view digits) {
  double value = 0.0;
  for (const char c : digits) {
    value = 10.0 * value + (c - '0');
  }
  return value;
}

struct Fraction {
  double value = 0.0;
  std::size_t length = 0;
};

/// "3/64" from `from` on.
std::optional<Fraction> fraction_at(std::string_view text, std::size_t from) {
  const auto above = digits_at(text, from);
  if (above == 0 || from + above >= text.size() || text[from + above] != '/') {
    return std::nullopt;
  }
  const auto below = digits_at(text, from + above + 1);
  if (below == 0) {
    return std::nullopt;
  }
  const double bottom = whole(text.substr(from + above + 1, below));
  return Fraction{whole(text.substr(from, above)) / bottom, above + 1 + below};
}

/// "1 1/4" or "3/64" from `from` on.
std::optional<Fraction> mixed_at(std::string_view text, std::size_t from) {
  if (const auto plain = fraction_at(text, from)) {
    return plain;
  }
  const auto front = digits_at(text, from);
  auto next = from + front;
  while (next < text.size() && text[next] == ' ') {
    ++next;
  }
  if (front == 0 || next == from + front) {
    return std::nullopt;
  }
  const auto part = fraction_at(text, next);
  if (!part) {
    return std::nullopt;
  }
  return Fraction{whole(text.substr(from, front)) + part->value, next - from + part->length};
}

NumberText finished(std::string_view text, double value, std::size_t length) {
  const auto state =
      std::isfinite(value) ? NumberText::State::number : NumberText::State::too_large;
  return {state, value, text.substr(0, length), text.substr(length)};
}

}  // namespace

NumberText read_number(std::string_view text) {
  const std::size_t sign = !text.empty() && (text[0] == '+' || text[0] == '-') ? 1 : 0;
  const double factor = sign == 1 && text[0] == '-' ? -1.0 : 1.0;
  if (const auto fraction = mixed_at(text, sign)) {
    return finished(text, factor * fraction->value, sign + fraction->length);
  }
  // from_chars also reads "inf" and "nan", which are no quantities
  const bool starts = digits_at(text, sign) > 0 ||
                      (sign < text.size() && text[sign] == '.' && digits_at(text, sign + 1) > 0);
  if (!starts) {
    return {};
  }
  double value = 0.0;
  const char* begin = text.data() + sign;
  const auto [end, error] = std::from_chars(begin, text.data() + text.size(), value);
  const auto length = static_cast<std::size_t>(end - text.data());
  if (error == std::errc::result_out_of_range) {
    return {NumberText::State::too_large, 0.0, text.substr(0, length), text.substr(length)};
  }
  return finished(text, factor * value, length);
}

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) {
    return {};
  }
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

std::string shortened(std::string_view text) {
  constexpr std::size_t longest = 60;
  if (text.size() <= longest) {
    return std::string(text);
  }
  std::size_t end = longest;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) {
    --end;
  }
  return std::string(text.substr(0, end)) + "...";
}

std::string significant(double value, int digits) {
  if (value == 0.0) {
    return "0";
  }
  const int magnitude = static_cast<int>(std::floor(std::log10(std::abs(value))));
  if (magnitude < -5 || magnitude > 8) {
    return fmt::format("{:.{}g}", value, digits);
  }
  std::string text = fmt::format("{:.{}f}", value, std::max(0, digits - 1 - magnitude));
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') {
      text.pop_back();
    }
  }
  return text;
}

}  // namespace ampstair::quantities
