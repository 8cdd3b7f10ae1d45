// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <limits>
#include <memory>
#include <span>
#include <vector>

#include "heat/wood.hpp"

namespace ampstair::marching {

/// Cells of wood that dries and chars, each with its past. The past changes between time steps
/// only: within a step every cell's temperature is one function of its u, whatever the stages try.
class WoodCells {
 public:
  /// @param cells of the whole grid
  void add(std::size_t cell, const std::shared_ptr<const heat::Wood>& wood, std::size_t cells);

  [[nodiscard]] bool hold(std::size_t cell) const {
    return !woods_.empty() && place_[cell] != nowhere;
  }
  /// Temperature [K] and dT/du of a cell held.
  [[nodiscard]] heat::Enthalpy::State at(std::size_t cell, double u) const {
    const Cell& here = woods_[place_[cell]];
    return here.wood->at(u, here.past);
  }
  /// T [K] in the place of u of the cells held in [first, end), and dT/du where `slope` is not
  /// empty; both arrays are as long as the grid.
  void temperatures(std::size_t first, std::size_t end, std::span<double> u_then_temperature,
                    std::span<double> slope) const;
  /// Writes the conductivity [W/m/K] of the cells held; both arrays are as long as the grid.
  void conductivities(std::span<const double> temperature, std::span<double> conductivity) const;

  /// Forgets the past: no cell has been warmer than its u [K].
  void begin(std::span<const double> u);
  /// Moves the past of cells whose u has never been as large.
  void remember(std::span<const double> u);

 private:
  static constexpr std::size_t nowhere = std::numeric_limits<std::size_t>::max();
  struct Cell {
    std::size_t cell;
    std::shared_ptr<const heat::Wood> wood;
    heat::Wood::Past past;
  };
  std::vector<Cell> woods_;
  std::vector<std::size_t> place_;  // per cell of the grid: index into woods_
};

}  // namespace ampstair::marching
