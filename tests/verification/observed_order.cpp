// SPDX-License-Identifier: MIT
#include "observed_order.hpp"

#include <algorithm>
#include <cmath>
#include <ostream>
#include <stdexcept>
#include <utility>

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

std::ostream& operator<<(std::ostream& out, const Convergence& convergence) {
  const auto& [size, error] = convergence;
  for (std::size_t i = 0; i < size.size(); ++i) {
    out << "\n  size " << size[i] << " error " << error[i];
    if (i > 0) {
      out << " order " << std::log(error[i - 1] / error[i]) / std::log(size[i - 1] / size[i]);
    }
  }
  return out << "\n  order " << convergence.order();
}

void Refinement::add(double size, std::vector<double> values) {
  size_.push_back(size);
  values_.push_back(std::move(values));
}

double Refinement::largest_difference(std::size_t at, const std::vector<double>& from) const {
  double largest = 0.0;
  for (std::size_t k = 0; k < from.size(); ++k) {
    largest = std::max(largest, std::abs(values_[at].at(k) - from[k]));
  }
  return largest;
}

Convergence Refinement::against_extrapolated(double order) const {
  if (size_.size() < 3) {
    throw std::logic_error("an order is observed at three sizes or more");
  }
  const std::size_t last = size_.size() - 1;
  const double ratio = std::pow(size_[last - 1] / size_[last], order);
  auto limit = values_[last];
  for (std::size_t k = 0; k < limit.size(); ++k) {
    limit[k] += (limit[k] - values_[last - 1].at(k)) / (ratio - 1.0);
  }
  Convergence found;
  for (std::size_t i = 0; i < last; ++i) {
    found.size.push_back(size_[i]);
    found.error.push_back(largest_difference(i, limit));
  }
  return found;
}

Convergence Refinement::against_next() const {
  Convergence found;
  for (std::size_t i = 0; i + 1 < size_.size(); ++i) {
    if (std::abs(size_[i] / size_[i + 1] - 2.0) > 1e-9) {
      throw std::logic_error("sizes have to halve");
    }
    found.size.push_back(size_[i]);
    found.error.push_back(largest_difference(i, values_[i + 1]));
  }
  return found;
}

}  // namespace ampstair::tests
