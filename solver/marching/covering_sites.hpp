// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "grid/grid.hpp"

namespace ampstair::marching {

/// Where the covering may go (grid::BareFace), and where it is gone. A grid keeps its cells: those
/// of a covering that is gone hold next to no heat, conduct nothing along the run and next to
/// everything across it, so that they are at the conductor's temperature, and the conductor's bare
/// face stands in the place of theirs.
class CoveringSites {
 public:
  explicit CoveringSites(const grid::Grid& grid);

  struct Site {
    grid::BareFace face;
    std::vector<std::size_t> cells;  ///< of the covering, from inside out
    bool gone = false;
  };
  [[nodiscard]] const std::vector<Site>& sites() const { return sites_; }
  [[nodiscard]] bool empty() const { return sites_.empty(); }
  [[nodiscard]] bool all_gone() const { return gone_.size() == sites_.size(); }
  /// The covering of a site is gone from here on.
  void go(std::size_t site);
  /// The face through which a cell gives off heat now, where the grid says `face`.
  [[nodiscard]] std::size_t standing(std::size_t face) const {
    return stands_for_.empty() ? face : stands_for_[face];
  }

  /// Conductivity [W/m/K] of the cells that are gone, in an array as long as the grid.
  void conduct(std::span<double> conductivity) const;
  /// No heat goes along the run from or to them [W/K to the next station].
  void part(std::span<double> onward) const;
  /// J/m3/K that their place still holds: a hundredth of what air does, and nothing that counts.
  static constexpr double heat_per_volume = 10.0;

 private:
  std::vector<Site> sites_;
  std::vector<std::size_t> gone_;        // indices into sites_
  std::vector<std::size_t> stands_for_;  // per face; empty where no covering may go
};

}  // namespace ampstair::marching
