// SPDX-License-Identifier: MIT
#include "grid/spacing.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "diagnostics/contract.hpp"

namespace ampstair::grid {

std::vector<double> graded(double begin, double end, const std::function<double(double)>& wanted,
                           int least) {
  diagnostics::expects(end > begin, "an interval has a length");
  // Samples fine enough that the spacing changes little between two of them.
  const std::size_t samples = 400;
  const double width = (end - begin) / static_cast<double>(samples);
  std::vector<double> sum(samples + 1, 0.0);
  for (std::size_t i = 0; i < samples; ++i) {
    const double middle = begin + (static_cast<double>(i) + 0.5) * width;
    sum[i + 1] = sum[i] + width / wanted(middle);
  }
  const auto cells =
      static_cast<std::size_t>(std::max(static_cast<double>(least), std::ceil(sum.back() - 1e-6)));
  std::vector<double> faces{begin};
  std::size_t i = 0;
  for (std::size_t c = 1; c < cells; ++c) {
    const double target = sum.back() * static_cast<double>(c) / static_cast<double>(cells);
    while (sum[i + 1] < target) {
      ++i;
    }
    const double part = (target - sum[i]) / (sum[i + 1] - sum[i]);
    faces.push_back(begin + (static_cast<double>(i) + part) * width);
  }
  faces.push_back(end);
  return faces;
}

}  // namespace ampstair::grid
