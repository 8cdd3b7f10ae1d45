// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "diagnostics/place.hpp"

namespace ampstair::sheet {

using diagnostics::Place;

struct Entry;

/// One node of a sheet as written. Scalars stay text: nothing is guessed to be a number or a truth.
struct Node {
  enum class Kind { empty, scalar, mapping, list };

  Kind kind = Kind::empty;
  std::string text;       ///< of a scalar
  Place place;            ///< where the value begins
  bool spoiled = false;   ///< a fault of its text is already told; readers pass over it in silence
  bool lost_key = false;  ///< of a mapping: a key at fault was dropped; do not call keys missing
  std::vector<Entry> entries;  ///< of a mapping, in order, keys unique
  std::vector<Node> items;     ///< of a list

  [[nodiscard]] bool is_scalar() const { return kind == Kind::scalar; }
  /// The value of a key, or nullptr.
  [[nodiscard]] const Node* find(const std::string& key) const;
};

/// One `key: value` of a mapping.
struct Entry {
  std::string key;
  Place key_place;
  Node value;
};

}  // namespace ampstair::sheet
