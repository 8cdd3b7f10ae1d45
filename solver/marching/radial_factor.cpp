// SPDX-License-Identifier: MIT
#include "marching/radial_factor.hpp"

#include <algorithm>

namespace ampstair::marching {

RadialFactor::RadialFactor(const HeatNetwork& network)
    : network_(network), borders_(network), branches_(network) {
  const auto& grid = network.grid();
  inverse_.assign(grid.cells, 1.0);
  lower_.assign(grid.cells, 0.0);
  back_.assign(grid.cells, 0.0);
  line_inverse_.assign(grid.stations(), 0.0);
  line_lower_.assign(grid.stations(), 0.0);
  lay_rows();
}

void RadialFactor::lay_rows() {
  const auto& rows = network_.rows().rows();
  std::vector<std::vector<std::size_t>> bottoms(network_.grid().patches.size());  // on a patch
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const Row& row = rows[r];
    const bool leans = network_.gas_links().row(r) != nullptr;
    rows_.push_back({row.stations, row.cell, row.below, &lower_[row.cell],
                     leans ? &back_[row.cell] : &lower_[row.cell], &inverse_[row.cell], row.even,
                     row.inward});
    if (row.bottom) {
      bottoms[network_.grid().patches[row.patch].parent].push_back(r);
    }
  }
  const auto rest_on = [&](std::size_t patch) {
    for (const std::size_t r : bottoms[patch]) {
      gathers_.push_back(rows_[r]);
    }
  };
  for (std::size_t r = 0; r < rows.size(); ++r) {
    gathers_begin_.push_back(gathers_.size());
    if (rows[r].top) {
      rest_on(rows[r].patch);
    } else {
      gathers_.push_back(rows_[r - 1]);
    }
  }
  gathers_begin_.push_back(gathers_.size());
  rest_on(0);
  gathers_begin_.push_back(gathers_.size());
}

void RadialFactor::factor(double s, std::span<const double> capacity) {
  s_ = s;
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
  if (eliminated_with_ != capacity.data()) {
    lay_eliminations(capacity);
  }
  kernels().eliminate_rows(eliminations_.data(), eliminations_.size(), s);
}

void RadialFactor::lay_eliminations(std::span<const double> capacity) {
  const auto& rows = network_.rows().rows();
  eliminated_with_ = capacity.data();
  eliminations_.clear();
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const Row& row = rows[r];
    RowElimination step{};
    step.n = row.stations;
    step.inward = row.inward;
    step.here = &inverse_[row.cell];
    step.lower = &lower_[row.cell];
    step.below = &inverse_[row.below];
    if (const GasLinks::Row* gas = network_.gas_links().row(r)) {
      step.of_here = gas->of_here.data();
      step.of_below = gas->of_below.data();
      step.back = &back_[row.cell];
    }
    if (!row.bottom) {
      const Row& below = rows[r + 1];
      step.base = below.even ? below.capacity : Scaled{&capacity[row.below]};
    }
    eliminations_.push_back(step);
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

void RadialFactor::gather(std::size_t first_row, std::size_t count, std::span<double> x) const {
  if (branches_.empty()) {
    gather_rows(gathers_begin_[first_row], gathers_begin_[first_row + count], x);
    return;
  }
  for (std::size_t r = first_row; r < first_row + count; ++r) {
    gather_rows(gathers_begin_[r], gathers_begin_[r + 1], x);
    branches_.gather(r, x);
  }
}

void RadialFactor::gather_rows(std::size_t begin, std::size_t end, std::span<double> x) const {
  kernels().sweep_rows_in(gathers_.data() + begin, end - begin, x.data());
}

void RadialFactor::gather_conductor(std::span<double> x) const {
  gather(network_.rows().rows().size(), 1, x);
}

void RadialFactor::finish(std::span<double> x) const {
  if (!borders_.empty()) {
    borders_.gather(x, reduced());
  }
  solve_line(x.data());
  if (!borders_.empty()) {
    borders_.spread(x, reduced());
  }
  kernels().sweep_rows_out(rows_.data(), rows_.size(), s_, x.data());
  branches_.spread(x);
}

}  // namespace ampstair::marching
