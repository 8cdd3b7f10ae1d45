// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <iosfwd>
#include <vector>

namespace ampstair::tests {

/// Observed order of accuracy: slope of the straight line fitted by least squares to log(error)
/// against log(size), sizes and errors positive and as many.
double observed_order(const std::vector<double>& size, const std::vector<double>& error);

/// Errors of one march at ever smaller sizes (of cells or of time steps).
struct Convergence {
  std::vector<double> size;
  std::vector<double> error;

  [[nodiscard]] double order() const { return observed_order(size, error); }
};
/// Every size with its error and the order from the size before.
std::ostream& operator<<(std::ostream& out, const Convergence& convergence);

/// Values of some quantities at ever smaller sizes, whose limit is not known.
class Refinement {
 public:
  /// @param values as many at every size
  void add(double size, std::vector<double> values);

  /// Largest errors against the values extrapolated from the two smallest sizes as if they were of
  /// `order` (Richardson; Roache, Verification and Validation in Computational Science and
  /// Engineering, chapter 5; from memory). The smallest size is left out: it says nothing new. If
  /// the order is another one, the slope is not `order` either.
  [[nodiscard]] Convergence against_extrapolated(double order) const;
  /// Largest differences from the next smaller size, for sizes that halve: they fall like the
  /// errors themselves, and nothing is assumed.
  [[nodiscard]] Convergence against_next() const;

 private:
  [[nodiscard]] double largest_difference(std::size_t at, const std::vector<double>& from) const;

  std::vector<double> size_;
  std::vector<std::vector<double>> values_;
};

}  // namespace ampstair::tests
