// SPDX-License-Identifier: MIT
#include "exact_solutions.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace ampstair::tests {

namespace {

constexpr double pi = std::numbers::pi;

double value(double j, double y, double x) {
  return j * std::cyl_bessel_j(0.0, x) + y * std::cyl_neumann(0.0, x);
}

double slope(double j, double y, double x) {
  return -j * std::cyl_bessel_j(1.0, x) - y * std::cyl_neumann(1.0, x);
}

}  // namespace

double LayeredCylinder::resistance_from(double radius) const {
  double inner = core_radius;
  double sum = 0.0;
  for (const Layer& layer : layers) {
    const double from = std::max(inner, radius);
    if (from < layer.outer_radius) {
      sum += std::log(layer.outer_radius / from) / (2.0 * pi * layer.conductivity);
    }
    inner = layer.outer_radius;
  }
  return sum + 1.0 / (2.0 * pi * inner * film);
}

double FinBetweenHeldEnds::long_wire_rise() const {
  const double square = current * current;
  const double made = square * resistance_20 * (1.0 + coefficient * (air - 20.0));
  return made / (loss - square * resistance_20 * coefficient);
}

double FinBetweenHeldEnds::rise(double x) const {
  const double m = std::sqrt((loss - current * current * resistance_20 * coefficient) / axial);
  return long_wire_rise() * (1.0 - std::cosh(m * (x - 0.5 * length)) / std::cosh(0.5 * m * length));
}

double FinBetweenHeldEnds::mean_rise() const {
  const double half =
      0.5 * length * std::sqrt((loss - current * current * resistance_20 * coefficient) / axial);
  return long_wire_rise() * (1.0 - std::tanh(half) / half);
}

double AdiabaticHeating::constant() const {
  return std::sqrt(heat_per_volume * (beta + 20.0) / resistivity_20);
}

double AdiabaticHeating::seconds(double current, double from, double to) const {
  const double part = constant() * area / current;
  return part * part * std::log((to + beta) / (from + beta));
}

double AdiabaticHeating::celsius(double current, double from, double seconds) const {
  const double part = current / (constant() * area);
  return (from + beta) * std::exp(part * part * seconds) - beta;
}

double LumpedCooling::celsius(double seconds) const {
  return air + (start - air) * std::exp(-seconds / time_constant);
}

double JointInLongFin::peak_rise() const {
  return watt / length / loss * (1.0 - std::exp(-0.5 * length * std::sqrt(loss / axial)));
}

// The core: C dT/dt = 2 pi a k T', so with T ~ exp(-kappa b^2 t):  F'(a) = -M b^2 F(a).
CoveredCoreCooling::CoveredCoreCooling(const Data& data) : data_(data) {
  const double a = data.core_radius;
  const double b = data.outer_radius;
  const double mass = data.core_capacity / (2.0 * pi * data.heat_per_volume);  // m2
  const auto inner = [&](double root, double& j, double& y) {
    const double x = root * a;
    const double load = mass * root / a;
    // (slope + load value) of J and of Y, combined to nothing at r = a.
    j = slope(0.0, 1.0, x) + load * value(0.0, 1.0, x);
    y = -(slope(1.0, 0.0, x) + load * value(1.0, 0.0, x));
  };
  const auto residual = [&](double root) {
    double j = 0.0;
    double y = 0.0;
    inner(root, j, y);
    return root * slope(j, y, root * b) + data.film / data.conductivity * value(j, y, root * b);
  };
  const double step = 0.002 * pi / (b - a);
  for (double low = 1e-3 * step; terms_.size() < 60; low += step) {
    if (residual(low) * residual(low + step) > 0.0) {
      continue;
    }
    double from = low;
    double to = low + step;
    for (int halving = 0; halving < 80; ++halving) {
      const double middle = 0.5 * (from + to);
      (residual(from) * residual(middle) <= 0.0 ? to : from) = middle;
    }
    Term term{0.5 * (from + to), 0.0, 0.0, 0.0};
    inner(term.root, term.j, term.y);
    const auto f = [&](double r) { return value(term.j, term.y, term.root * r); };
    const auto g = [&](double r) { return slope(term.j, term.y, term.root * r); };  // F' / root
    const auto square = [&](double r) { return 0.5 * r * r * (f(r) * f(r) + g(r) * g(r)); };
    const double whole = (a * g(a) - b * g(b)) / term.root + mass * f(a);
    term.amplitude = whole / (square(b) - square(a) + mass * f(a) * f(a));
    terms_.push_back(term);
  }
}

double CoveredCoreCooling::excess(double radius, double seconds) const {
  const double diffusivity = data_.conductivity / data_.heat_per_volume;
  double sum = 0.0;
  for (const Term& term : terms_) {
    sum += term.amplitude * value(term.j, term.y, term.root * radius) *
           std::exp(-diffusivity * term.root * term.root * seconds);
  }
  return sum;
}

}  // namespace ampstair::tests
