// SPDX-License-Identifier: MIT
#include "observed_order.hpp"

#include <cmath>
#include <cstddef>

namespace ampstair::tests {

double observed_order(const std::vector<double>& size, const std::vector<double>& error) {
  const auto n = static_cast<double>(size.size());
  double x = 0.0;
  double y = 0.0;
  double xx = 0.0;
  double xy = 0.0;
  for (std::size_t i = 0; i < size.size(); ++i) {
    const double a = std::log(size[i]);
    const double b = std::log(error[i]);
    x += a;
    y += b;
    xx += a * a;
    xy += a * b;
  }
  return (n * xy - x * y) / (n * xx - x * x);
}

}  // namespace ampstair::tests
