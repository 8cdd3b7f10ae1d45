// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "marching/scheme.hpp"
#include "materials/material.hpp"

namespace ampstair::marching {

/// Cells whose material breaks down, each with the part of it that has: one more component of the
/// time scheme per cell. In the implicit operator it stands with its own rate constant and hands
/// its heat to the cell's temperature; the rate's slope against temperature is left out, which the
/// scheme allows (covering.md). Heat made is then the converted mass times the heat of the
/// reaction, to round-off.
class ReactingCells {
 public:
  /// @param mass kg in the cell
  /// @param heat_capacity J/kg/K
  void add(std::size_t cell, const materials::Breakdown& breakdown, double mass,
           double heat_capacity);

  [[nodiscard]] bool empty() const { return cells_.empty(); }
  [[nodiscard]] std::size_t size() const { return cells_.size(); }
  [[nodiscard]] std::size_t cell(std::size_t k) const { return cells_[k].cell; }
  /// Nothing has broken down.
  void begin();
  /// Indices of those that lose mass.
  [[nodiscard]] const std::vector<std::size_t>& losing() const { return losing_; }
  /// J/K that is left of a cell, by what has broken down in it.
  [[nodiscard]] double capacity(std::size_t k) const;
  /// Part of it that goes in the step attempted last.
  [[nodiscard]] double shed(std::size_t k) const;
  /// A cell, if it is one of these, breaks down no further: it is no longer there.
  void leave(std::size_t cell);

  /// Sets the converted parts to those of a stage of the step that begins here.
  void begin_stage(std::size_t stage);
  /// Mixes what has broken down into the conductivities [W/m/K], an array as long as the grid.
  void mix_conductivities(std::span<double> conductivity) const;
  /// Solves the stage at its temperatures [K per cell of the grid].
  /// @param s gamma times the length of the step, s
  /// @return J, what the stage's heat adds to the right-hand sides in all
  double solve_stage(std::size_t stage, double s, std::span<const double> temperature);
  /// J, what it adds to the right-hand side of each cell, in the order of cell().
  [[nodiscard]] std::span<const double> heat() const { return heat_; }

  /// Estimated error of the step attempted last, K: of the converted part, as the rise it makes.
  [[nodiscard]] double error() const;
  /// W that a cell makes at a temperature [K] with what is converted of it now.
  [[nodiscard]] double power(std::size_t k, double kelvin) const;
  /// Part converted, 0 to 1, somewhere inside the step attempted last.
  [[nodiscard]] double converted(std::size_t k, const Scheme::Vector& weights) const;
  [[nodiscard]] double converted(std::size_t k) const { return cells_[k].converted; }
  void advance(const Scheme::Vector& weights);

 private:
  struct Cell {
    std::size_t cell;
    materials::Breakdown breakdown;
    double heat;      // J, of all of the cell's reaction
    double hardly;    // K, below which it is left alone
    double weight;    // K, that all of the reaction counts for in an error
    double capacity;  // J/K where nothing has broken down
    double rate;      // 1/s, rate constant where the step begins
    double converted;
    double of_stage;  // part converted at the stage under way
    Scheme::Vector stages;
  };
  std::vector<Cell> cells_;
  std::vector<double> heat_;
  std::vector<std::size_t> losing_;
};

}  // namespace ampstair::marching
