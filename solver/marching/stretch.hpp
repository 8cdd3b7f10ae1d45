// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>

namespace ampstair::marching {

/// Cells one after the other.
struct Stretch {
  std::size_t first = 0;
  std::size_t count = 0;
};

}  // namespace ampstair::marching
