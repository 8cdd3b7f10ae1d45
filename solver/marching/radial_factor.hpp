// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

#include "marching/kernels.hpp"
#include "marching/network.hpp"
#include "marching/side_borders.hpp"
#include "marching/side_branches.hpp"

namespace ampstair::marching {

/// Second factor of a step's operator, C + s K_C: all radial conduction, the conductor's own line,
/// the side bodies, the slopes of the radial faces, minus the slope of the made heat. Its graph is
/// a tree (the comb, with branches) apart from the other side bodies, which border it: branches and
/// columns are eliminated from outside in, then the conductor's line and the borders, then
/// everything is swept from inside out.
class RadialFactor {
 public:
  explicit RadialFactor(const HeatNetwork& network);

  /// @param capacity C against temperature, J/K per cell
  void factor(double s, std::span<const double> capacity);

  // A solution in place, in this order:
  /// Brings to rows what the rows on top of them have gathered; rows in the order of
  /// HeatRows::rows(), then the conductor.
  void gather(std::size_t first_row, std::size_t count, std::span<double> x) const;
  void gather_conductor(std::span<double> x) const;
  /// Solves the conductor's line with the side bodies, then all rows from inside out.
  void finish(std::span<double> x) const;

 private:
  void assemble(double s, std::span<const double> capacity);
  void eliminate_columns(double s, std::span<const double> capacity);
  void lay_eliminations(std::span<const double> capacity);
  void factor_line(double s);
  void solve_line(double* x) const;
  void lay_rows();
  void gather_rows(std::size_t begin, std::size_t end, std::span<double> x) const;
  [[nodiscard]] ReducedRun reduced() const { return {inverse_, lower_, back_}; }

  const HeatNetwork& network_;
  std::vector<RadialRow> rows_;     // in the order of HeatRows::rows()
  std::vector<RadialRow> gathers_;  // those that rest on each row in turn, and on the conductor
  std::vector<std::size_t> gathers_begin_;
  std::vector<RowElimination> eliminations_;
  const double* eliminated_with_ = nullptr;  // the capacities they point to
  SideBorders borders_;
  SideBranches branches_;
  double s_ = 0.0;
  Cells inverse_, lower_;
  Cells back_;  // read where gas makes it differ from lower_
  std::vector<double> line_inverse_, line_lower_;
};

}  // namespace ampstair::marching
