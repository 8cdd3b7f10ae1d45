// SPDX-License-Identifier: MIT
#include "marching/axial_factor.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "grid/column.hpp"

namespace ampstair::marching {

AxialFactor::AxialFactor(const HeatNetwork& network) : network_(network) {
  const auto& grid = network.grid();
  for (Cells* cells : {&weight_, &diagonal_}) {
    cells->assign(grid.cells, 1.0);
  }
  onward_.assign(grid.cells, 0.0);
  find_gas();
  find_even_rows();
  lay_blocks();
}

void AxialFactor::find_gas() {
  const auto& grid = network_.grid();
  std::vector<bool> has_gas(grid.stations(), false);
  for (const Row& row : network_.rows().rows()) {
    const std::size_t first = grid.patches[row.patch].first_station;
    for (std::size_t j = 0; j < row.stations; ++j) {
      if (network_.nearly_massless(row.cell + j)) {
        has_gas[first + j] = true;
      }
    }
  }
  for (std::size_t j = 0; j < grid.stations(); ++j) {
    if (has_gas[j]) {
      find_gas_at(j);
    }
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
      gas_.push_back({cell, lends && inside ? column[i - 1].cell : npos,
                      lends && outside ? column[last + 1].cell : npos,
                      0.1 * wave * wave * grid.volume[cell]});
    }
    i = last;
  }
}

void AxialFactor::find_even_rows() {
  const auto& grid = network_.grid();
  even_.assign(grid.cells, false);
  for (const Row& row : network_.rows().rows()) {
    std::fill_n(even_.begin() + static_cast<std::ptrdiff_t>(row.cell), row.stations, row.even);
  }
  // One uneven cell makes its row uneven.
  std::vector<bool> spoilt(grid.cells, false);
  for (const Gas& gas : gas_) {
    for (const std::size_t cell : {gas.cell, gas.inside, gas.outside}) {
      if (cell != npos) {
        spoilt[cell] = true;
      }
    }
  }
  for (const auto& face : grid.faces) {
    if (face.axial) {
      spoilt[face.cell] = true;
    }
  }
  for (const Row& row : network_.rows().rows()) {
    const auto first = spoilt.begin() + static_cast<std::ptrdiff_t>(row.cell);
    const auto last = first + static_cast<std::ptrdiff_t>(row.stations);
    if (std::find(first, last, true) != last) {
      std::fill_n(even_.begin() + static_cast<std::ptrdiff_t>(row.cell), row.stations, false);
    }
  }
}

std::size_t AxialFactor::shared_for(const Row& row) {
  if (!even_[row.cell]) {
    return npos;
  }
  const double diffusivity = row.along_times_length / row.heat_per_length;
  const auto same = [&](const Shared& s) {
    // Rings of one material differ by rounding.
    return s.patch == row.patch && std::abs(s.diffusivity / diffusivity - 1.0) < 1e-12;
  };
  const auto found = std::find_if(shared_.begin(), shared_.end(), same);
  if (found == shared_.end()) {
    shared_.push_back({row.patch, diffusivity, Cells(row.stride, 0.0), Cells(row.stride, 1.0)});
    return shared_.size() - 1;
  }
  return static_cast<std::size_t>(found - shared_.begin());
}

void AxialFactor::lay_blocks() {
  std::size_t storage = 0;
  std::size_t longest = 0;
  const auto& rows = network_.rows().rows();
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const Row& row = rows[r];
    const std::size_t shared = shared_for(row);
    if (blocks_.empty() || blocks_.back().patch != row.patch || blocks_.back().shared != shared ||
        blocks_.back().rows == most_rows) {
      blocks_.push_back({r, 0, row.patch, row.cell, shared, 0});
    }
    ++blocks_.back().rows;
    blocks_.back().cell = row.cell;
  }
  for (Block& block : blocks_) {
    const std::size_t stride = network_.grid().patches[block.patch].stride;
    const std::size_t size = (block.rows + 7) / 8 * 8 * stride;
    longest = std::max(longest, stride);
    if (block.shared == npos) {
      block.storage = storage;
      storage += size;
    }
  }
  lower_.assign(storage, 0.0);
  inverse_.assign(storage, 0.0);
  scratch_.assign(16 * longest, 0.0);
}

/// Diagonal, links and weight of rows with matrices of their own.
void AxialFactor::assemble(double s, const Block& block, std::span<const double> capacity) {
  const std::size_t end = block.cell + block.rows * network_.grid().patches[block.patch].stride;
  const auto onward = network_.onward();
  for (std::size_t c = block.cell; c < end; ++c) {
    weight_[c] = capacity[c];
    onward_[c] = s * onward[c];
  }
}

void AxialFactor::factor(double s, std::span<const double> capacity) {
  factor_shared(s);
  for (const Block& block : blocks_) {
    if (block.shared == npos) {
      assemble(s, block, capacity);
    }
  }
  for (const Gas& gas : gas_) {
    weight_[gas.cell] += s * gas.stiffening * network_.conductivity(gas.cell);
    const double lent = s * network_.onward()[gas.cell];
    if (gas.inside != npos) {
      onward_[gas.inside] += lent;
    }
    if (gas.outside != npos) {
      onward_[gas.outside] += lent;
    }
  }
  const auto& grid = network_.grid();
  for (const Block& block : blocks_) {
    if (block.shared == npos) {
      const auto& patch = grid.patches[block.patch];
      const std::size_t end = block.cell + block.rows * patch.stride;
      // Links are 0 at the end of a row and in the padding, so rows need not be told apart.
      for (std::size_t c = block.cell; c < end; ++c) {
        diagonal_[c] = weight_[c] + onward_[c] + onward_[c - 1];
      }
    }
  }
  for (std::size_t f = 0; f < grid.faces.size(); ++f) {
    if (grid.faces[f].axial) {
      diagonal_[grid.faces[f].cell] += s * network_.face_slope()[f];
    }
  }
  for (const Block& block : blocks_) {
    if (block.shared == npos) {
      const auto& patch = grid.patches[block.patch];
      kernels().factor_rows(block.rows, patch.stride, patch.stations, &diagonal_[block.cell],
                            &onward_[block.cell], &lower_[block.storage], &inverse_[block.storage]);
    }
  }
}

/// (dz + s diffusivity links) of each diffusivity, side by side: each waits for its own divisions
/// only.
void AxialFactor::factor_shared(double s) {
  constexpr std::size_t side_by_side = 4;
  for (std::size_t first = 0; first < shared_.size();) {
    const std::size_t patch = shared_[first].patch;
    std::size_t end = first;
    while (end < shared_.size() && end < first + side_by_side && shared_[end].patch == patch) {
      ++end;
    }
    const std::size_t n = network_.grid().patches[patch].stations;
    const double* length = network_.rows().lengths(patch).data();
    const double* link = network_.rows().links(patch);
    std::array<double, side_by_side> before{};
    std::array<double, side_by_side> pivot{};
    for (std::size_t j = 0; j < n; ++j) {
      for (std::size_t k = first; k < end; ++k) {
        Shared& shared = shared_[k];
        const double behind = s * shared.diffusivity * link[j];
        const double lower = before[k - first] * pivot[k - first];
        pivot[k - first] =
            1.0 / (length[j] + before[k - first] + behind - before[k - first] * lower);
        shared.lower[j] = lower;
        shared.inverse[j] = pivot[k - first];
        before[k - first] = behind;
      }
    }
    first = end;
  }
}

void AxialFactor::solve(const Block& block, std::span<double> x) const {
  const auto& patch = network_.grid().patches[block.patch];
  if (block.shared == npos) {
    kernels().solve_rows(block.rows, patch.stride, patch.stations, &lower_[block.storage],
                         &inverse_[block.storage], &weight_[block.cell], &x[block.cell],
                         scratch_.data());
  } else {
    const Shared& shared = shared_[block.shared];
    kernels().solve_even_rows(block.rows, patch.stride, patch.stations, shared.lower.data(),
                              shared.inverse.data(), network_.rows().lengths(block.patch).data(),
                              &x[block.cell], scratch_.data());
  }
}

}  // namespace ampstair::marching
