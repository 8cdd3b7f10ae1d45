// SPDX-License-Identifier: MIT
#include "marching/lookup.hpp"

#include <algorithm>
#include <cmath>

namespace ampstair::marching {

namespace {

constexpr double lookup_begin = 150.0;     // K
constexpr std::size_t lookup_size = 1751;  // to 1900 K, one point per kelvin

/// What is not a number lies at the begin.
double place_of(double kelvin) {
  const double x = kelvin - lookup_begin;
  return x > 0.0 ? std::min(x, static_cast<double>(lookup_size - 2)) : 0.0;
}

}  // namespace

Lookup::Lookup(const materials::Curve& curve) {
  value_.reserve(lookup_size);
  for (std::size_t i = 0; i < lookup_size; ++i) {
    value_.push_back(curve.at(lookup_begin + static_cast<double>(i)));
  }
  find_straights();
}

double Lookup::at(double kelvin) const {
  const double x = place_of(kelvin);
  const auto i = static_cast<std::size_t>(x);
  return value_[i] + (x - static_cast<double>(i)) * (value_[i + 1] - value_[i]);
}

/// For every value the one to which those behind it lie on a straight line.
void Lookup::find_straights() {
  constexpr double rounding = 1e-13;
  straight_.assign(value_.size(), value_.size() - 1);
  for (std::size_t i = value_.size() - 1; i-- > 1;) {
    const double bend = value_[i + 1] - 2.0 * value_[i] + value_[i - 1];
    straight_[i - 1] = std::abs(bend) <= rounding * std::abs(value_[i]) ? straight_[i] : i;
  }
}

Table Lookup::table() const {
  return {value_.data(), straight_.data(), lookup_begin, lookup_size - 2};
}

void Lookup::at(std::span<const double> kelvin, std::span<const double> times,
                std::span<double> out) const {
  kernels().look_up(kelvin.size(), table(), kelvin.data(), times.data(), out.data());
}

double Lookup::sum_at(std::span<const double> kelvin, std::span<const double> times) const {
  return kernels().sum_looked_up(kelvin.size(), table(), kelvin.data(), times.data());
}

double Lookup::slope_at(double kelvin) const {
  const double x = place_of(kelvin);
  const auto i = static_cast<std::size_t>(x);
  return value_[i + 1] - value_[i];
}

}  // namespace ampstair::marching
