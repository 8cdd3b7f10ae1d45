// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "grid/grid.hpp"
#include "marching/heat_rows.hpp"
#include "marching/kernels.hpp"
#include "marching/lookup.hpp"

namespace ampstair::marching {

/// Links across gases whose conductivity follows their temperature: gaps round the wire and in
/// front of wood. Heat q = G (T_a - T_b) then changes with the gas's temperature by more than G,
///   dq = (G + of_a) dT_a - (G - of_b) dT_b,
///   of_a = (T_a - T_b) dG/dk_a dk_a/dT,   dG/dk_a = G^2 shape_a / k_a^2,   b alike.
/// A gas has next to no heat capacity, so nothing else keeps its temperature in place: the factor
/// has to know, or the scheme falls to order 1.4 there. Kept within 0.9 G downwards, where a coarse
/// gap between very hot and cold would turn the sign.
class GasLinks {
 public:
  /// W/K. A link leads inwards in the run, outwards along a side body's chain.
  struct Lean {
    double of_a = 0.0, of_b = 0.0;
  };
  /// Links from one row of the run to the row below.
  struct Row {
    std::size_t row;          ///< index into HeatRows::rows()
    double path_here;         ///< of the row's cells, per 2 pi k dz
    double path_below;        ///< of those below
    Cells length;             ///< m per station
    Cells of_here, of_below;  ///< per station, W/K
  };

  /// @param gas per medium of the grid: its conductivity, if it is such a gas, else null
  GasLinks(const grid::Grid& grid, const HeatRows& rows, std::vector<const Lookup*> gas);

  /// Finds all of them, at the temperatures [K] for which conductivities [W/m/K] and the rows'
  /// conductances to the cells below [W/K] are.
  void find(std::span<const double> temperature, std::span<const double> conductivity,
            std::span<const double> inward);

  /// A row's links, or null where no such gas is.
  [[nodiscard]] const Row* row(std::size_t index) const;
  /// Whether the link from a cell of the run to the one below is among them.
  [[nodiscard]] bool leans(std::size_t cell) const;
  /// Of the link to a cell of a branch's chain, from the one before it or, for its first, from the
  /// run's cell that it is tied to.
  [[nodiscard]] Lean towards(std::size_t cell) const {
    return branches_.empty() ? Lean{} : branches_[cell - first_body_cell_];
  }

 private:
  /// Temperatures [K] and conductivities [W/m/K] per cell.
  struct State {
    std::span<const double> temperature, conductivity;
  };
  /// A cell at one end of a link, and its part of the link's shape (as in grid::Link).
  struct End {
    std::size_t cell;
    double shape;
  };

  void add_row(std::size_t index);
  void find(Row& row, const State& state, std::span<const double> inward) const;
  [[nodiscard]] Lean lean(const grid::Link& link, std::size_t a, std::size_t b,
                          const State& state) const;
  [[nodiscard]] Lean lean(double conductance, const End& a, const End& b, const State& state) const;
  [[nodiscard]] double slope(std::size_t cell, double kelvin) const;

  const grid::Grid& grid_;
  const HeatRows& rows_;
  std::vector<const Lookup*> gas_;
  std::vector<Row> found_;
  std::vector<std::size_t> index_;  // per row of the run: into found_, or npos
  std::size_t first_body_cell_ = 0;
  std::vector<Lean> branches_;  // per cell from first_body_cell_ on; empty: no branch has gas
};

}  // namespace ampstair::marching
