// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "diagnostics/problem.hpp"

namespace ampstair::sheet {

/// Stands in a scalar whose text is at fault and was told; no sheet holds it (see is_text).
constexpr char spoiled_mark = '\x7f';

/// A text with the slips a YAML parser would misplace or swallow told and mended, so that the
/// parser can go on and find the rest. Lines keep their numbers, and columns but for `shifts`.
struct Mended {
  std::string text;
  std::map<int, int> shifts;  ///< line -> columns its content moved right by mending
  bool faulty = false;        ///< something was told
  bool readable = true;       ///< worth parsing
};

/// Tells tabs, comments that swallow text, typeset quotes, decimal commas, anchors, brackets and
/// quotes never closed, and depth beyond reason, each where it begins.
Mended scan_raw(std::string_view text, const std::string& name, diagnostics::ProblemList& problems);

}  // namespace ampstair::sheet
