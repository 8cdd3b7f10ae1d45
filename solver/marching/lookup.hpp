// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "marching/kernels.hpp"
#include "materials/material.hpp"

namespace ampstair::marching {

/// A property against temperature at even spacing, for look-ups without a search.
class Lookup {
 public:
  Lookup() = default;
  explicit Lookup(const materials::Curve& curve);
  [[nodiscard]] double at(double kelvin) const;
  /// out = times * the property, for as many temperatures [K].
  void at(std::span<const double> kelvin, std::span<const double> times,
          std::span<double> out) const;
  /// Sum of times * the property.
  [[nodiscard]] double sum_at(std::span<const double> kelvin, std::span<const double> times) const;
  [[nodiscard]] double slope_at(double kelvin) const;

 private:
  void find_straights();
  [[nodiscard]] Table table() const;

  std::vector<double> value_;
  std::vector<std::size_t> straight_;
};

}  // namespace ampstair::marching
