// SPDX-License-Identifier: MIT
#include "exact_solutions.hpp"

#include <algorithm>
#include <boost/math/special_functions/bessel.hpp>
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
CoveredCore::CoveredCore(const Data& data) : data_(data) {
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
    Term term{0.5 * (from + to), 0.0, 0.0, 0.0, 0.0};
    inner(term.root, term.j, term.y);
    const auto f = [&](double r) { return value(term.j, term.y, term.root * r); };
    const auto g = [&](double r) { return slope(term.j, term.y, term.root * r); };  // F' / root
    const auto square = [&](double r) { return 0.5 * r * r * (f(r) * f(r) + g(r) * g(r)); };
    const double whole = (a * g(a) - b * g(b)) / term.root + mass * f(a);
    const double norm = square(b) - square(a) + mass * f(a) * f(a);
    term.cooling = whole / norm;
    term.heating = f(a) / (2.0 * pi * data.conductivity * term.root * term.root * norm);
    terms_.push_back(term);
  }
}

double CoveredCore::sum(double Term::*amplitude, double radius, double seconds) const {
  const double diffusivity = data_.conductivity / data_.heat_per_volume;
  double sum = 0.0;
  for (const Term& term : terms_) {
    sum += term.*amplitude * value(term.j, term.y, term.root * radius) *
           std::exp(-diffusivity * term.root * term.root * seconds);
  }
  return sum;
}

double CoveredCore::excess(double radius, double seconds) const {
  return sum(&Term::cooling, radius, seconds);
}

double CoveredCore::rise(double radius, double seconds) const {
  const LayeredCylinder steady{
      data_.core_radius, {{data_.outer_radius, data_.conductivity}}, data_.film};
  return steady.resistance_from(radius) - sum(&Term::heating, radius, seconds);
}

// Between two zeros of J0 (and from 0 to the first) b J1 - Bi J0 changes its sign once: at the
// zeros it is b J1(b), whose sign alternates, at 0 it is -Bi.
HeatedCylinder::HeatedCylinder(double biot) : biot_(biot) {
  double low = 0.0;
  for (int zero = 1; zero <= 60; ++zero) {
    const double high = boost::math::cyl_bessel_j_zero(0.0, zero);
    const auto residual = [&](double b) {
      return b * std::cyl_bessel_j(1.0, b) - biot * std::cyl_bessel_j(0.0, b);
    };
    double from = low;
    double to = high;
    for (int halving = 0; halving < 80; ++halving) {
      const double middle = 0.5 * (from + to);
      (std::signbit(residual(middle)) == std::signbit(residual(to)) ? to : from) = middle;
    }
    roots_.push_back(0.5 * (from + to));
    low = high;
  }
}

double HeatedCylinder::theta(double x, double fourier) const {
  double theta = 0.25 * (1.0 - x * x) + 0.5 / biot_;
  for (const double b : roots_) {
    theta -= 2.0 * biot_ * std::cyl_bessel_j(0.0, b * x) /
             (b * b * (b * b + biot_ * biot_) * std::cyl_bessel_j(0.0, b)) *
             std::exp(-b * b * fourier);
  }
  return theta;
}

double HalfSpaceUnderFlux::rise(double depth, double seconds) const {
  const double reach = 2.0 * std::sqrt(conductivity / heat_per_volume * seconds);
  const double x = depth / reach;
  return flux / conductivity * (reach / std::sqrt(pi) * std::exp(-x * x) - depth * std::erfc(x));
}

}  // namespace ampstair::tests
