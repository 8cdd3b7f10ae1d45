// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Dense>
#include <cstddef>
#include <span>
#include <vector>

#include "marching/network.hpp"

namespace ampstair::marching {

/// The run's columns and the conductor's line after elimination, as the side bodies need them.
struct ReducedRun {
  std::span<const double> inverse;  ///< 1 / pivot per cell outside the conductor
  std::span<const double> lower;    ///< per cell: s G to the cell below, over its pivot
  std::span<const double> back;     ///< in the place of lower outwards, of cells whose link leans
};

/// Side bodies (knobs, lugs; not branches) as borders of the comb. Each is a chain eliminated on to
/// its tied cell, the head; heads and the conductor's line meet in a small dense Schur complement.
class SideBorders {
 public:
  explicit SideBorders(const HeatNetwork& network);

  [[nodiscard]] bool empty() const { return borders_.empty(); }
  /// Adds the ties to the diagonals of the cells they join, before columns are eliminated.
  void add_ties(double s, std::span<double> diagonal);
  /// @param diagonal of all cells; those of the chains have not been eliminated
  /// @param solve_line solves the conductor's line in place
  template <class SolveLine>
  void factor(double s, std::span<const double> diagonal, const ReducedRun& run,
              const SolveLine& solve_line) {
    for (std::size_t b = 0; b < borders_.size(); ++b) {
      const double own = factor_chain(s, b, diagonal) - reach_columns(b, run);
      schur_(static_cast<Eigen::Index>(b), static_cast<Eigen::Index>(b)) = own;
    }
    for (Border& border : borders_) {
      solve_line(border.influence.data());
    }
    factor_schur();
  }
  /// Before the line is solved: what the chains and columns bring to the heads.
  void gather(std::span<double> x, const ReducedRun& run) const;
  /// After the line is solved: heads, their effect on the line and on the columns, the chains.
  void spread(std::span<double> x, const ReducedRun& run) const;

 private:
  struct ColumnCell {
    std::size_t cell;
    bool leans;  // see GasLinks
    [[nodiscard]] double back(const ReducedRun& run) const {
      return leans ? run.back[cell] : run.lower[cell];
    }
  };
  struct Tie {
    std::size_t cell, station;
    std::vector<ColumnCell> column;  // from the one on the conductor out to `cell`
    double conductance = 0.0;        // s times it
    double reach = 0.0;              // on to the conductor through the column
    double back = 0.0;               // from the conductor to the head
  };
  struct Border {
    const grid::SideBody* body = nullptr;
    std::vector<Tie> ties;
    std::vector<double> chain_inverse, chain_lower;
    std::vector<double> influence;  // per station: the conductor's answer to the head
  };

  [[nodiscard]] std::vector<ColumnCell> column_below(const grid::SideBody::Tie& tie) const;
  double factor_chain(double s, std::size_t b, std::span<const double> diagonal);
  double reach_columns(std::size_t b, const ReducedRun& run);
  void factor_schur();
  void back_along_chain(std::size_t b, double head, std::span<double> x) const;

  const HeatNetwork& network_;
  std::vector<Border> borders_;
  Eigen::MatrixXd schur_;
  Eigen::PartialPivLU<Eigen::MatrixXd> lu_;
  mutable Eigen::VectorXd heads_, solved_;
};

}  // namespace ampstair::marching
