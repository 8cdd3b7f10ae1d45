// SPDX-License-Identifier: MIT
#pragma once

#include <compare>
#include <string>

namespace ampstair::diagnostics {

/// A place in a text file as editors count it: lines and columns from 1 (0: unknown).
struct Place {
  std::string file;
  int line = 0;
  int column = 0;

  friend auto operator<=>(const Place&, const Place&) = default;
};

}  // namespace ampstair::diagnostics
