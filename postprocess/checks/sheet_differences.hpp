// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "checks/histories.hpp"

namespace ampstair::post::checks {

/// One value of a record's sheet, materials or settings.
struct SheetValue {
  std::string text;  ///< as written, with its band; else the number with its unit
  std::optional<double> value;
  std::optional<double> low;  ///< band, in the unit
  std::optional<double> high;
  std::string unit;
  std::string source;
  bool by_default = false;
};

/// A value that is not the same in all records set side by side.
struct Difference {
  std::string path;   ///< as the record has it, "run/north bay/around/to"
  std::string place;  ///< what it belongs to: "north bay, 4.00 to 4.80 m", "wire layers 1"
  std::string key;    ///< the rest of the path in words: "around to"
  std::vector<std::optional<SheetValue>> values;  ///< by record; none where it has no such value
  bool of_source = false;  ///< the values agree, only where they came from does not
};

struct SheetDifferences {
  std::vector<Difference> found;  ///< what belongs to one place together
  bool same_text = false;         ///< one run sheet, word for word
  /// Every record holds its completed sheet. Without, words (a material's name, a fit), watch items
  /// and instruments are not compared.
  bool complete = false;
};

/// Everything in which the completed sheets, the materials' values, the files read beside them and
/// the ways of marching differ. Numbers that agree to 1e-9 are the same, however they are written.
/// @param records at least two
SheetDifferences sheet_differences(const std::vector<const Histories*>& records);

}  // namespace ampstair::post::checks
