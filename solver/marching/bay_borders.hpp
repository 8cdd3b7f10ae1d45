// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Dense>
#include <cstddef>
#include <span>
#include <vector>

#include "marching/kernels.hpp"
#include "marching/network.hpp"

namespace ampstair::marching {

/// Closed bays as borders of the second factor: the air of each and its walls, which the faces in
/// it give their heat to. With M the factor without them, V = M^-1 (s G) the run's answer to a
/// bay's node and G the slopes between faces and node,
///   y = (C + s links - s G^T V)^-1 (r + s G^T M^-1 rhs),   x = M^-1 rhs + V y.
/// Faces of the first factor (end faces) give to the bay what that factor made them give, and are
/// not given anything back before the next stage.
class BayBorders {
 public:
  explicit BayBorders(const HeatNetwork& network);

  [[nodiscard]] bool empty() const { return nodes_.empty(); }
  /// Nodes of all bays: the cell of each.
  [[nodiscard]] const std::vector<std::size_t>& nodes() const { return nodes_; }
  /// V of a node: K per kelvin of it, one value per cell.
  [[nodiscard]] std::span<const double> influence(std::size_t node) const {
    return influence_[node];
  }

  /// For the network's linearised state, after M has been factored.
  /// @param capacity C against temperature, J/K per cell
  /// @param solve solves M x = rhs in place
  template <class Solve>
  void factor(double s, std::span<const double> capacity, const Solve& solve) {
    for (std::size_t node = 0; node < nodes_.size(); ++node) {
      reach_faces(s, node);
      solve(std::span<double>(influence_[node]));
    }
    factor_schur(s, capacity);
  }

  // A solution, in this order:
  /// Forgets what end faces have given.
  void begin() { given_.setZero(); }
  /// Heat [J] that goes to a face's bay besides what gather() finds.
  void give(std::size_t face, double heat);
  /// Brings to the nodes what the faces give of a solution of M.
  void gather(std::span<const double> x);
  /// The nodes, and what they change of the solution.
  /// @return change of each node, K
  std::span<const double> spread(std::span<double> x);

  /// s times what a bay loses to the outside per kelvin of its walls, J/K; 0 for a node of air.
  [[nodiscard]] double loss(std::size_t node) const;

 private:
  void reach_faces(double s, std::size_t node);
  void factor_schur(double s, std::span<const double> capacity);

  const HeatNetwork& network_;
  std::vector<std::size_t> nodes_;  // air, walls, air, walls, ...
  std::vector<Cells> influence_;
  std::vector<const BaySite*> site_of_face_;  // the first one of each face, or null
  double s_ = 0.0;
  Eigen::MatrixXd schur_;
  Eigen::PartialPivLU<Eigen::MatrixXd> lu_;
  Eigen::VectorXd given_, solved_;
};

}  // namespace ampstair::marching
