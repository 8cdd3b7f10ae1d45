// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

namespace ampstair::tests {

/// Observed order of accuracy: slope of the straight line fitted by least squares to log(error)
/// against log(size), sizes and errors positive and as many.
double observed_order(const std::vector<double>& size, const std::vector<double>& error);

}  // namespace ampstair::tests
