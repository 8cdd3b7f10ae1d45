// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Dense>
#include <cstddef>
#include <vector>

#include "marching/axial_factor.hpp"
#include "marching/network.hpp"

namespace ampstair::tests {

using Matrix = Eigen::MatrixXd;

inline Eigen::Index at(std::size_t i) {
  return static_cast<Eigen::Index>(i);
}

/// A column of cells from the conductor outwards, with the outer radius of each.
struct Column {
  std::vector<std::size_t> cells;
  std::vector<double> radius;       // outer
  std::vector<std::size_t> to_end;  // stations of the row that follow this one
  std::vector<std::size_t> patch;
};

Column column_at(const grid::Grid& g, std::size_t station);

/// The factors of P = (I + s K_A D^-1)(C + s K_C), as dense matrices from the network's own
/// numbers. Which links along the run are weak enough to be left out, the comb says.
struct Dense {
  Matrix axial, comb;         // K_A, K_C
  Matrix conduction_along;    // K_A of all links, without what gas lends its neighbours
  Eigen::VectorXd capacity;   // C
  Eigen::VectorXd stiffened;  // D

  Dense(const marching::HeatNetwork& n, double s, const std::vector<double>& slope,
        const marching::AxialFactor& taken);

  /// The operator that the factors stand for, C + s K_A + s K_C with the gas as it is.
  [[nodiscard]] Matrix exact(double s) const;
  [[nodiscard]] Matrix product(double s) const;

 private:
  void add_patches(const marching::HeatNetwork& n, const marching::AxialFactor& taken);
  void add_gas(const marching::HeatNetwork& n, double s, const marching::AxialFactor& taken);
  void add_bodies(const marching::HeatNetwork& n);
  void add_leaning(const marching::HeatNetwork& n);
};

}  // namespace ampstair::tests
