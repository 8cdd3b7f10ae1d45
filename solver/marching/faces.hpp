// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "grid/grid.hpp"
#include "heat/exchange.hpp"
#include "marching/kernels.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::marching {

/// All exposed faces of a grid and what they give to their surroundings.
class Faces {
 public:
  Faces(const grid::Grid& grid, const scenario::Scenario& scenario);

  /// Surroundings as they are from `time` [s] on, until the next entry of their histories.
  void set_surroundings(double time);
  /// The moment [s] of what is exchanged next: what moving surroundings have come to then.
  void set_time(double time) { time_ = time; }
  /// Whether any surroundings move now.
  [[nodiscard]] bool move() const { return move_; }

  /// Finds what every face gives off.
  /// @param temperature K per cell; @param conductivity W/m/K per cell
  /// @param linearise keep slopes and surface temperatures of this state
  /// @return heat lost, W
  double exchange(std::span<const double> temperature, std::span<const double> conductivity,
                  bool linearise);

  /// Heat [W] each face gave off at the last exchange, in the grid's order.
  [[nodiscard]] const std::vector<double>& heat() const { return heat_; }
  /// d(loss)/dT of every face [W/K] in the linearised state, in the grid's order.
  [[nodiscard]] const std::vector<double>& slope() const { return slope_; }
  /// Surface temperature [K] of a face when its cell is at `cell` [K].
  [[nodiscard]] double surface(std::size_t face, double cell, double conductivity) const;

 private:
  /// Faces of one exposure, as arrays.
  struct Group {
    std::size_t exposure = 0;
    std::vector<std::size_t> face, cell;
    Cells area, shape_per_area;
    Cells temperature, conductance, guess, guess_cell, guess_slope;  // of the linearised state
    Cells surface, flux, slope;                                      // results
  };

  double exchange(Group& group, std::span<const double> temperature,
                  std::span<const double> conductivity, bool linearise);
  void follow_ambient(const Group& group);
  void solve_surfaces(Group& group) const;
  void keep(Group& group);
  [[nodiscard]] bool settled(const Group& group) const;

  const grid::Grid& grid_;
  const scenario::Scenario& scenario_;
  std::vector<heat::Exchange> exchanges_;     // per exposure
  std::vector<heat::Prevailing> prevailing_;  // each was made for
  bool move_ = false;                         // whether any of them does
  double time_ = 0.0;                         // s
  std::vector<Group> groups_;
  std::vector<double> slope_;
  std::vector<double> heat_;   // W per face
  std::vector<double> guess_;  // K per face, surface in the linearised state
};

}  // namespace ampstair::marching
