// SPDX-License-Identifier: MIT
#include "marching/radial_factor.hpp"

namespace ampstair::marching {

RadialFactor::RadialFactor(const HeatNetwork& network) : network_(network), borders_(network) {
  const auto& grid = network.grid();
  inverse_.assign(grid.cells, 1.0);
  lower_.assign(grid.cells, 0.0);
  line_inverse_.assign(grid.stations(), 0.0);
  line_lower_.assign(grid.stations(), 0.0);
}

void RadialFactor::factor(double s, std::span<const double> slope) {
  assemble(s, slope);
  eliminate_columns(s);
  factor_line(s);
  borders_.factor(s, inverse_, reduced(), [&](double* line) { solve_line(line); });
}

/// The diagonal, into inverse_.
void RadialFactor::assemble(double s, std::span<const double> slope) {
  const auto& grid = network_.grid();
  const auto capacity = network_.capacity();
  for (std::size_t c = 0; c < grid.cells; ++c) {
    inverse_[c] = capacity[c] / slope[c];
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
}

/// Afterwards inverse_ holds 1 / pivot of every cell outside the conductor and, in the conductor's
/// row, the reduced diagonal without its own line.
void RadialFactor::eliminate_columns(double s) {
  const auto& grid = network_.grid();
  const auto inward = network_.inward();
  for (std::size_t p = grid.patches.size(); p-- > 1;) {
    const auto& patch = grid.patches[p];
    for (std::size_t i = patch.rows; i-- > 0;) {
      const std::size_t row = patch.row(i);
      kernels().eliminate(patch.stations, s, &inward[row], &inverse_[row],
                          &inverse_[network_.row_below(patch, i)], &lower_[row]);
    }
  }
}

void RadialFactor::factor_line(double s) {
  const std::size_t n = line_inverse_.size();
  const auto onward = network_.onward();
  line_inverse_[0] = 1.0 / (inverse_[0] + (n > 1 ? s * onward[0] : 0.0));
  for (std::size_t j = 1; j < n; ++j) {
    const double before = s * onward[j - 1];
    const double behind = j + 1 < n ? s * onward[j] : 0.0;
    line_lower_[j] = before * line_inverse_[j - 1];
    line_inverse_[j] = 1.0 / (inverse_[j] + before + behind - before * line_lower_[j]);
  }
}

void RadialFactor::solve_line(double* x) const {
  const std::size_t n = line_inverse_.size();
  for (std::size_t j = 1; j < n; ++j) {
    x[j] += line_lower_[j] * x[j - 1];
  }
  x[n - 1] *= line_inverse_[n - 1];
  for (std::size_t j = n - 1; j-- > 0;) {
    x[j] = x[j] * line_inverse_[j] + line_lower_[j + 1] * x[j + 1];
  }
}

void RadialFactor::solve(std::span<double> x) const {
  const auto& grid = network_.grid();
  for (std::size_t p = grid.patches.size(); p-- > 1;) {
    const auto& patch = grid.patches[p];
    for (std::size_t i = patch.rows; i-- > 0;) {
      const std::size_t row = patch.row(i);
      kernels().sweep_in(patch.stations, &lower_[row], &x[row], &x[network_.row_below(patch, i)]);
    }
  }
  if (!borders_.empty()) {
    borders_.gather(x, reduced());
  }
  solve_line(x.data());
  if (!borders_.empty()) {
    borders_.spread(x, reduced());
  }
  for (std::size_t p = 1; p < grid.patches.size(); ++p) {
    const auto& patch = grid.patches[p];
    for (std::size_t i = 0; i < patch.rows; ++i) {
      const std::size_t row = patch.row(i);
      kernels().sweep_out(patch.stations, &lower_[row], &inverse_[row],
                          &x[network_.row_below(patch, i)], &x[row]);
    }
  }
}

}  // namespace ampstair::marching
