// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "marching/network.hpp"

namespace ampstair::marching {

/// Side bodies that are branches of one station's column (the wood a station faces): chains whose
/// first cell is tied to one cell of the run. They are eliminated on to that cell before its column
/// is and swept out after it, so that any number of them costs what their cells cost.
class SideBranches {
 public:
  explicit SideBranches(const HeatNetwork& network);

  [[nodiscard]] bool empty() const { return branches_.empty(); }
  /// Eliminates all of them on to the diagonals of the cells they are tied to.
  /// @param diagonal of all cells; ties are not in it yet
  void factor(double s, std::span<double> diagonal);
  /// Brings to the cells of a row what their branches have gathered; rows in the order of
  /// HeatRows::rows(), then the conductor.
  void gather(std::size_t row, std::span<double> x) const {
    for (std::size_t b = row_begin_[row]; b < row_begin_[row + 1]; ++b) {
      gather(branches_[b], x);
    }
  }
  /// From the run's cells, solved by now, out to the ends.
  void spread(std::span<double> x) const;

 private:
  struct Branch {
    const grid::SideBody* body;
    std::size_t cell;   // of the run
    std::size_t first;  // of its cells, in inverse_ and lower_
  };

  void factor(const Branch& branch, double s, std::span<double> diagonal);
  void gather(const Branch& branch, std::span<double> x) const;

  const HeatNetwork& network_;
  std::vector<Branch> branches_;        // by row
  std::vector<std::size_t> row_begin_;  // index into branches_, per row and at the end
  std::vector<double> inverse_;
  std::vector<double> lower_, back_;  // what comes to the cell before of one, and the other way
};

}  // namespace ampstair::marching
