// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <vector>

namespace ampstair::grid {

/// Faces from `begin` to `end` (both included) whose spacing follows `wanted(x)` [m] without
/// jumps: the faces divide the integral of 1/wanted evenly, rounded up to whole cells.
/// @param least fewest cells
std::vector<double> graded(double begin, double end, const std::function<double(double)>& wanted,
                           int least);

}  // namespace ampstair::grid
