// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/SparseCore>
#include <Eigen/SparseLU>
#include <functional>
#include <vector>

#include "marching/network.hpp"
#include "peer_jacobian.hpp"

namespace ampstair::tests {

/// A network's heat balance with heat put into every cell from outside the model: what manufactured
/// solutions need and no scenario has. Solved by Newton's method with a direct sparse solver.
class ForcedBalance {
 public:
  /// Heat put into a cell at a time [s], W.
  using Source = std::function<double(std::size_t cell, double time)>;

  ForcedBalance(marching::HeatNetwork& network, Source source);

  /// Steady temperatures [K] of all cells: Q(T) + source = 0.
  /// @param start K, per cell
  std::vector<double> steady(const std::vector<double>& start);
  /// Marches C du/dt = Q(T(u)) + source by the trapezoidal rule (order 2), `steps` even steps from
  /// 0 to `end` [s].
  std::vector<double> march(const std::vector<double>& start, double end, int steps);

 private:
  /// Solves C (u - before) = length (weight Q(T(u)) + rest), `rest` with the source in it; with
  /// C left out where `length` is infinite.
  struct Equation {
    double time, inverse_length, weight;
    std::vector<double> before, rest;
  };
  void solve(const Equation& equation, std::vector<double>& u);
  /// Net heat of every cell [W] at u, source included; linearised there.
  std::vector<double> heat(const std::vector<double>& u, double time);

  marching::HeatNetwork& network_;
  Source source_;
  Unknowns unknowns_;
  Eigen::SparseMatrix<double> matrix_;
  HeatJacobian jacobian_;
  Eigen::SparseLU<Eigen::SparseMatrix<double>> factors_;
  std::vector<double> slope_;
};

}  // namespace ampstair::tests
