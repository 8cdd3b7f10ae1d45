// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "sheet/declaration.hpp"

namespace ampstair::sheet {

/// A mapping or a set of choices somewhere below a declaration; exactly one is set.
struct NestedPart {
  DeclarationPtr keys;
  ChoicesPtr choices;
};

/// Everything declared below, in the order met, each once: two with the same name and the same keys
/// count as one, since copies of a declaration stand wherever it is used.
std::vector<NestedPart> nested_of(const Declaration& keys);

/// Whether two declarations ask for the same.
bool same_keys(const Declaration& a, const Declaration& b);

}  // namespace ampstair::sheet
