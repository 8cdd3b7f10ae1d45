// SPDX-License-Identifier: MIT
#include "marching/axial_factor.hpp"

#include <algorithm>
#include <numbers>

#include "grid/column.hpp"

namespace ampstair::marching {

namespace {

constexpr std::size_t none = grid::Grid::npos;

}  // namespace

AxialFactor::AxialFactor(const HeatNetwork& network) : network_(network) {
  const auto& grid = network.grid();
  for (Cells* cells : {&capacity_, &diagonal_, &inverse_}) {
    cells->assign(grid.cells, 1.0);
  }
  onward_.assign(grid.cells, 0.0);
  lower_.assign(grid.cells, 0.0);
  std::size_t longest = 0;
  for (const auto& patch : grid.patches) {
    longest = std::max(longest, patch.stride);
  }
  scratch_.assign(8 * longest, 0.0);
  for (std::size_t f = 0; f < grid.faces.size(); ++f) {
    if (grid.faces[f].axial) {
      axial_faces_.push_back(f);
    }
  }
  find_gas();
}

void AxialFactor::find_gas() {
  for (std::size_t j = 0; j < network_.grid().stations(); ++j) {
    find_gas_at(j);
  }
}

void AxialFactor::find_gas_at(std::size_t station) {
  const auto& grid = network_.grid();
  const auto column = grid::column_at(grid, station);
  const std::size_t rows = column.size();
  for (std::size_t i = 1; i < rows; ++i) {
    if (!network_.nearly_massless(column[i].cell)) {
      continue;
    }
    std::size_t last = i;
    while (last + 1 < rows && network_.nearly_massless(column[last + 1].cell)) {
      ++last;
    }
    const double wave = std::numbers::pi / (column[last].outer_radius - column[i].inner_radius);
    // The conductor's row is not in this factor; beyond the outermost row there is none.
    const bool inside = i > 1 && column[i - 1].goes_on;
    const bool outside = last + 1 < rows && column[last + 1].goes_on;
    for (std::size_t k = i; k <= last; ++k) {
      const bool lends = column[k].goes_on;
      const std::size_t cell = column[k].cell;
      gas_.push_back({cell, lends && inside ? column[i - 1].cell : none,
                      lends && outside ? column[last + 1].cell : none,
                      0.1 * wave * wave * grid.volume[cell]});
    }
    i = last;
  }
}

void AxialFactor::assemble(double s, std::span<const double> slope) {
  const auto& grid = network_.grid();
  const auto capacity = network_.capacity();
  const auto onward = network_.onward();
  for (std::size_t c = 0; c < grid.cells; ++c) {
    capacity_[c] = capacity[c] / slope[c];
    onward_[c] = s * onward[c];
  }
  for (const Gas& gas : gas_) {
    capacity_[gas.cell] += s * gas.stiffening * network_.conductivity(gas.cell);
    const double lent = s * onward[gas.cell];
    if (gas.inside != none) {
      onward_[gas.inside] += lent;
    }
    if (gas.outside != none) {
      onward_[gas.outside] += lent;
    }
  }
  // Links are 0 at the end of a row and in the padding, so the row before need not be told apart.
  diagonal_[0] = capacity_[0] + onward_[0];
  for (std::size_t c = 1; c < grid.cells; ++c) {
    diagonal_[c] = capacity_[c] + onward_[c] + onward_[c - 1];
  }
  for (const std::size_t f : axial_faces_) {
    diagonal_[grid.faces[f].cell] += s * network_.face_slope()[f];
  }
}

void AxialFactor::factor(double s, std::span<const double> slope) {
  assemble(s, slope);
  const auto& patches = network_.grid().patches;
  for (std::size_t p = 1; p < patches.size(); ++p) {
    const auto& patch = patches[p];
    const std::size_t at = patch.offset;
    kernels().factor_rows(patch.rows, patch.stride, patch.stations, &diagonal_[at], &onward_[at],
                          &lower_[at], &inverse_[at]);
  }
}

void AxialFactor::solve(std::span<double> x, std::span<double> v) const {
  const auto& patches = network_.grid().patches;
  for (std::size_t p = 1; p < patches.size(); ++p) {
    const auto& patch = patches[p];
    const std::size_t at = patch.offset;
    kernels().solve_rows(patch.rows, patch.stride, patch.stations, &lower_[at], &inverse_[at],
                         &capacity_[at], &x[at], scratch_.data());
  }
  for (const std::size_t f : axial_faces_) {
    const std::size_t cell = network_.grid().faces[f].cell;
    v[cell] = x[cell] / capacity_[cell];
  }
}

}  // namespace ampstair::marching
