// SPDX-License-Identifier: MIT
#include "grid/spacing.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "diagnostics/contract.hpp"

namespace ampstair::grid {

namespace {

/// Places from `begin` to `end`, close together where the spacing wanted is fine, so that a long
/// stretch keeps its refined ends.
std::vector<double> sampled(double begin, double end, const std::function<double(double)>& wanted) {
  std::vector<double> place{begin};
  while (place.back() < end) {
    const double from = place.back();
    double width = 0.2 * wanted(from);
    width = 0.2 * wanted(from + 0.5 * width);
    place.push_back(from + 1.5 * width < end ? from + width : end);
  }
  return place;
}

}  // namespace

std::vector<double> graded(double begin, double end, const std::function<double(double)>& wanted,
                           int least) {
  diagnostics::expects(end > begin, "an interval has a length");
  // From both ends: a run walked through from its other end has the same faces.
  std::vector<double> place = sampled(begin, end, wanted);
  for (const double back :
       sampled(0.0, end - begin, [&](double from_end) { return wanted(end - from_end); })) {
    place.push_back(std::clamp(end - back, begin, end));
  }
  std::sort(place.begin(), place.end());
  std::vector<double> sum{0.0};
  for (std::size_t i = 0; i + 1 < place.size(); ++i) {
    sum.push_back(sum.back() + (place[i + 1] - place[i]) / wanted(0.5 * (place[i] + place[i + 1])));
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
