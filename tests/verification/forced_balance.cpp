// SPDX-License-Identifier: MIT
#include "forced_balance.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace ampstair::tests {

namespace {

using Matrix = Eigen::SparseMatrix<double>;

/// The Jacobian's pattern, filled with zeros.
Matrix pattern(const marching::HeatNetwork& network, const Unknowns& unknowns) {
  std::vector<Eigen::Triplet<double>> entries;
  const auto add = [&](std::size_t row, std::size_t column) {
    entries.emplace_back(static_cast<int>(row), static_cast<int>(column), 0.0);
  };
  for (std::size_t k = 0; k < unknowns.size(); ++k) {
    add(k, k);
  }
  for (const Conduction& pair : conductions(network)) {
    add(unknowns.index[pair.a], unknowns.index[pair.b]);
    add(unknowns.index[pair.b], unknowns.index[pair.a]);
  }
  const auto size = static_cast<Eigen::Index>(unknowns.size());
  Matrix matrix(size, size);
  matrix.setFromTriplets(entries.begin(), entries.end());
  return matrix;
}

std::size_t place_in(const Matrix& matrix, std::size_t row, std::size_t column) {
  const int* first = matrix.innerIndexPtr() + matrix.outerIndexPtr()[column];
  const int* last = matrix.innerIndexPtr() + matrix.outerIndexPtr()[column + 1];
  return static_cast<std::size_t>(std::lower_bound(first, last, static_cast<int>(row)) -
                                  matrix.innerIndexPtr());
}

}  // namespace

ForcedBalance::ForcedBalance(marching::HeatNetwork& network, Source source)
    : network_(network),
      source_(std::move(source)),
      unknowns_(unknowns_as_laid(network)),
      matrix_(pattern(network, unknowns_)),
      jacobian_(
          network, unknowns_,
          [&](std::size_t row, std::size_t column) { return place_in(matrix_, row, column); }),
      slope_(network.grid().cells, 1.0) {
  factors_.analyzePattern(matrix_);
}

std::vector<double> ForcedBalance::heat(const std::vector<double>& u, double time) {
  std::vector<double> temperature(u.size());
  std::vector<double> net(u.size(), 0.0);
  network_.temperatures(u, temperature, slope_);
  network_.rates(temperature, net, true);
  for (const std::size_t c : unknowns_.cell) {
    net[c] += source_(c, time);
  }
  return net;
}

void ForcedBalance::solve(const Equation& equation, std::vector<double>& u) {
  const auto capacity = network_.capacity();
  const auto size = static_cast<Eigen::Index>(unknowns_.size());
  Eigen::VectorXd residual(size);
  // The Jacobian takes conductivities as they are: each round gains a digit or so, not twice as
  // many.
  for (int round = 0; round < 200; ++round) {
    const auto net = heat(u, equation.time);
    std::fill_n(matrix_.valuePtr(), matrix_.nonZeros(), 0.0);
    jacobian_.fill(slope_, matrix_.valuePtr());
    matrix_ *= -equation.weight;
    for (Eigen::Index k = 0; k < size; ++k) {
      const std::size_t c = unknowns_.cell[static_cast<std::size_t>(k)];
      residual[k] = (equation.weight * net[c] + equation.rest[c]) / capacity[c] -
                    (u[c] - equation.before[c]) * equation.inverse_length;
      const auto row = static_cast<std::size_t>(k);
      matrix_.valuePtr()[place_in(matrix_, row, row)] += equation.inverse_length;
    }
    factors_.factorize(matrix_);
    const Eigen::VectorXd change = factors_.solve(residual);
    for (Eigen::Index k = 0; k < size; ++k) {
      u[unknowns_.cell[static_cast<std::size_t>(k)]] += change[k];
    }
    if (change.lpNorm<Eigen::Infinity>() < 1e-9) {
      return;
    }
  }
  throw std::runtime_error("a forced balance was not solved");
}

std::vector<double> ForcedBalance::steady(const std::vector<double>& start) {
  auto u = start;
  solve({0.0, 0.0, 1.0, start, std::vector<double>(start.size(), 0.0)}, u);
  std::vector<double> temperature(u.size());
  network_.temperatures(u, temperature, slope_);
  return temperature;
}

std::vector<double> ForcedBalance::march(const std::vector<double>& start, double end, int steps) {
  auto u = start;
  const double length = end / steps;
  for (int i = 0; i < steps; ++i) {
    auto half = heat(u, i * length);
    std::transform(half.begin(), half.end(), half.begin(), [](double w) { return 0.5 * w; });
    solve({(i + 1) * length, 1.0 / length, 0.5, u, std::move(half)}, u);
  }
  std::vector<double> temperature(u.size());
  network_.temperatures(u, temperature, slope_);
  return temperature;
}

}  // namespace ampstair::tests
