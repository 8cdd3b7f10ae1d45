// SPDX-License-Identifier: MIT
#include "marching/radial_factor.hpp"

#include <algorithm>

namespace ampstair::marching {

RadialFactor::RadialFactor(const HeatNetwork& network)
    : network_(network), borders_(network), branches_(network) {
  const auto& grid = network.grid();
  inverse_.assign(grid.cells, 1.0);
  lower_.assign(grid.cells, 0.0);
  line_inverse_.assign(grid.stations(), 0.0);
  line_lower_.assign(grid.stations(), 0.0);
  bottom_rows_.resize(grid.patches.size());
  const auto& rows = network.rows().rows();
  for (std::size_t r = 0; r < rows.size(); ++r) {
    if (rows[r].bottom) {
      bottom_rows_[grid.patches[rows[r].patch].parent].push_back(r);
    }
  }
}

void RadialFactor::factor(double s, std::span<const double> capacity) {
  assemble(s, capacity);
  eliminate_columns(s, capacity);
  factor_line(s);
  borders_.factor(s, inverse_, reduced(), [&](double* line) { solve_line(line); });
}

/// The diagonal, into inverse_: of the conductor, the side bodies and the top rows of patches, the
/// only ones with faces, ties or other patches on them. The others get theirs when the row above is
/// eliminated.
void RadialFactor::assemble(double s, std::span<const double> capacity) {
  const auto& grid = network_.grid();
  const auto take = [&](std::size_t first, std::size_t count) {
    for (std::size_t c = first; c < first + count; ++c) {
      inverse_[c] = capacity[c];
    }
  };
  for (const auto& patch : grid.patches) {
    take(patch.row(patch.rows - 1), patch.stations);
  }
  for (const auto& body : grid.bodies) {
    take(body.first_cell, body.cells);
  }
  for (std::size_t f = 0; f < grid.faces.size(); ++f) {
    if (!grid.faces[f].axial) {
      inverse_[grid.faces[f].cell] += s * network_.face_slope()[f];
    }
  }
  for (std::size_t j = 0; j < grid.stations(); ++j) {
    inverse_[j] -= s * network_.source_slope()[j];
  }
  borders_.add_ties(s, inverse_);
  branches_.factor(s, inverse_);
}

/// Afterwards inverse_ holds 1 / pivot of every cell outside the conductor and, in the conductor's
/// row, the reduced diagonal without its own line.
void RadialFactor::eliminate_columns(double s, std::span<const double> capacity) {
  const auto& rows = network_.rows().rows();
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const Row& row = rows[r];
    RowElimination step{};
    step.n = row.stations;
    step.inward = row.inward.times(s);
    step.here = &inverse_[row.cell];
    step.lower = &lower_[row.cell];
    step.below = &inverse_[row.below];
    if (!row.bottom) {
      const Row& below = rows[r + 1];
      step.base = below.even ? below.capacity : Scaled{&capacity[row.below]};
    }
    kernels().eliminate(step);
  }
}

void RadialFactor::factor_line(double s) {
  const std::size_t n = line_inverse_.size();
  std::copy_n(inverse_.begin(), n, line_inverse_.begin());
  kernels().factor_line(n, s, network_.onward().data(), line_inverse_.data(), line_lower_.data());
}

void RadialFactor::solve_line(double* x) const {
  kernels().solve_line(line_inverse_.size(), line_lower_.data(), line_inverse_.data(), x);
}

void RadialFactor::gather_patches(std::size_t patch, std::span<double> x) const {
  for (const std::size_t r : bottom_rows_[patch]) {
    const Row& above = network_.rows().rows()[r];
    kernels().sweep_in(above.stations, &lower_[above.cell], &x[above.cell], &x[above.below]);
  }
}

void RadialFactor::gather(std::size_t row, std::span<double> x) const {
  const Row& here = network_.rows().rows()[row];
  if (here.top) {
    gather_patches(here.patch, x);
  } else {
    const std::size_t above = here.cell + here.stride;
    kernels().sweep_in(here.stations, &lower_[above], &x[above], &x[here.cell]);
  }
  branches_.gather(row, x);
}

void RadialFactor::gather_conductor(std::span<double> x) const {
  gather_patches(0, x);
  branches_.gather(network_.rows().rows().size(), x);
}

void RadialFactor::finish(std::span<double> x) const {
  if (!borders_.empty()) {
    borders_.gather(x, reduced());
  }
  solve_line(x.data());
  if (!borders_.empty()) {
    borders_.spread(x, reduced());
  }
  const auto& rows = network_.rows().rows();
  for (std::size_t r = rows.size(); r-- > 0;) {
    const Row& row = rows[r];
    kernels().sweep_out(row.stations, &lower_[row.cell], &inverse_[row.cell], &x[row.below],
                        &x[row.cell]);
  }
  branches_.spread(x);
}

}  // namespace ampstair::marching
