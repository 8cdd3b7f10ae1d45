// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <utility>

#include "grid/grid.hpp"

namespace ampstair::grid {

/// Appends cells to one side body; the grid's per-cell arrays grow with it.
class BodyBuilder {
 public:
  BodyBuilder(Grid& grid, const scenario::Piece& piece) : grid_(grid) {
    body_.name = piece.name;
    body_.first_cell = grid.cells;
    body_.position = piece.begin + 0.5 * piece.length;
  }

  /// @return index of the cell in the chain
  std::size_t add_cell(double volume, const scenario::MaterialPtr& material, const char* part,
                       double metres_per_area = 0.0) {
    return add_cell(volume, Medium{material, {}, part}, metres_per_area);
  }
  std::size_t add_cell(double volume, const Medium& medium, double metres_per_area = 0.0) {
    grid_.medium.push_back(grid_.medium_index(medium));
    grid_.volume.push_back(volume);
    ++grid_.cells;
    ++grid_.real_cells;
    body_.metres_per_area.push_back(metres_per_area);
    body_.depth.push_back(0.0);
    return body_.cells++;
  }

  void link(const Link& link) { body_.chain.push_back(link); }

  void expose(std::size_t cell, double area, double shape, const Exposure& kind) {
    grid_.faces.push_back(
        {body_.first_cell + cell, area, shape, false, grid_.exposure_index(kind)});
  }

  SideBody& body() { return body_; }
  void finish() { grid_.bodies.push_back(std::move(body_)); }

 private:
  Grid& grid_;
  SideBody body_;
};

}  // namespace ampstair::grid
