// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sheet/mapping.hpp"

namespace ampstair::sheet {

/// One value of a sheet, given or by default, with the place it stands at.
struct SheetEntry {
  /// Keys from the top, "run/north bay/around/to"; items of a list go by their `name`, those
  /// without one by their number from 1.
  std::string path;
  std::string text;             ///< as written, with its band; a default as declared
  std::optional<double> value;  ///< of a number, in SI
  std::optional<double> low;    ///< its band
  std::optional<double> high;
  std::string unit;    ///< of these three
  std::string source;  ///< the author's, or why this default; may be empty
  bool by_default = false;
};

std::vector<SheetEntry> list_entries(const Declaration& keys, void* object);

/// All that a sheet holds, in the order of its declarations. What is missing is left out.
template <class T>
std::vector<SheetEntry> entries_of(const Mapping<T>& keys, const T& object) {
  T copy = object;  // declarations hand out references to change; the copy keeps the promise
  return list_entries(*keys.declaration(), &copy);
}

}  // namespace ampstair::sheet
