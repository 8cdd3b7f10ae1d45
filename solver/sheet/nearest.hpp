// SPDX-License-Identifier: MIT
#pragma once

#include "diagnostics/nearest.hpp"

namespace ampstair::sheet {

using diagnostics::nearest_words;

}  // namespace ampstair::sheet
