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
  // Sampled finely where the spacing is fine, so that a long stretch keeps its refined ends.
  std::vector<double> place{begin};
  std::vector<double> sum{0.0};
  while (place.back() < end) {
    const double from = place.back();
    double width = 0.2 * wanted(from);
    width = 0.2 * wanted(from + 0.5 * width);
    const double to = from + 1.5 * width < end ? from + width : end;
    place.push_back(to);
    sum.push_back(sum.back() + (to - from) / wanted(0.5 * (from + to)));
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
    faces.push_back(place[i] + part * (place[i + 1] - place[i]));
  }
  faces.push_back(end);
  return faces;
}

}  // namespace ampstair::grid
