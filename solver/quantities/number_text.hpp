// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace ampstair::quantities {

/// A number at the beginning of a text: "1.10", "-3e2", "3/64", "1 1/4".
struct NumberText {
  enum class State { number, none, too_large };
  State state = State::none;
  double value = 0.0;
  std::string_view text;  ///< the part read
  std::string_view rest;  ///< what follows, untrimmed
};

NumberText read_number(std::string_view text);

std::string_view trimmed(std::string_view text);
/// For messages: cut after some 60 bytes, at a character's end.
std::string shortened(std::string_view text);
/// Rounded to so many significant digits, trailing zeros dropped, no exponent where it reads well.
std::string significant(double value, int digits);

}  // namespace ampstair::quantities
