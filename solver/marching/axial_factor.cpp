// SPDX-License-Identifier: MIT
#include "marching/axial_factor.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include "grid/column.hpp"

namespace ampstair::marching {

namespace {

constexpr std::size_t whole_vector = 8;
// s times the rate of a link that is left out, at most. Temperatures that alternate from station to
// station then decay at 4 times the rate: 1.4 a step; without a factor the scheme is stable to 2.0.
constexpr double explicit_limit = 0.15;
// Rows whose properties follow temperature may come to so many times their rate of the begin.
constexpr double may_change = 3.0;

}  // namespace

AxialFactor::AxialFactor(const HeatNetwork& network) : network_(network) {
  const auto& grid = network.grid();
  weight_.assign(grid.cells, 1.0);
  for (Cells* cells : {&stiffening_, &lent_, &ends_}) {
    cells->assign(grid.cells, 0.0);
  }
  find_gas();
  find_even_rows();
  lay_blocks();
  find_stiffness();
}

// ---- where ------------------------------------------------------------------------------------

void AxialFactor::find_stiffness() {
  const auto& grid = network_.grid();
  for (const auto& patch : grid.patches) {
    rates_.emplace_back(patch.stations, 0.0);
    always_.emplace_back(patch.stations, false);
  }
  ranges_.resize(grid.patches.size());
  std::vector<bool> ends(grid.cells, false);
  for (std::size_t f = 0; f < grid.faces.size(); ++f) {
    if (grid.faces[f].axial) {
      ends[grid.faces[f].cell] = true;
      end_faces_.push_back(f);
    }
  }
  for (const Row& row : network_.rows().rows()) {
    for (std::size_t j = 0; j < row.stations; ++j) {
      if (ends[row.cell + j]) {
        always_[row.patch][j] = true;
      }
    }
  }
  take_capacities();
}

void AxialFactor::take_capacities() {
  constexpr double infinite = std::numeric_limits<double>::infinity();
  for (std::size_t p = 0; p < rates_.size(); ++p) {
    for (std::size_t j = 0; j < rates_[p].size(); ++j) {
      const bool next = j + 1 < rates_[p].size() && always_[p][j + 1];
      rates_[p][j] = always_[p][j] || next ? infinite : 0.0;
    }
  }
  for (const Row& row : network_.rows().rows()) {
    auto& rate = rates_[row.patch];
    const double times = row.even ? 1.0 : may_change;
    for (std::size_t j = 0; j + 1 < row.stations; ++j) {
      const std::size_t cell = row.cell + j;
      const double least = std::min(network_.capacity()[cell], network_.capacity()[cell + 1]);
      rate[j] = std::max(rate[j], times * network_.onward()[cell] / least);
    }
  }
}

void AxialFactor::always_take(std::size_t first_station, std::size_t stations) {
  const auto& grid = network_.grid();
  for (std::size_t p = 1; p < grid.patches.size(); ++p) {
    const auto& patch = grid.patches[p];
    const std::size_t begin = std::max(first_station, patch.first_station);
    const std::size_t end =
        std::min(first_station + stations, patch.first_station + patch.stations);
    for (std::size_t j = begin; j < end; ++j) {
      always_[p][j - patch.first_station] = true;
    }
  }
}

void AxialFactor::find_ranges(double s) {
  for (std::size_t p = 1; p < ranges_.size(); ++p) {
    auto& ranges = ranges_[p];
    ranges.clear();
    const double least = explicit_limit / s;
    const std::size_t stations = rates_[p].size();
    for (std::size_t j = 0; j < stations; ++j) {
      if (rates_[p][j] <= least) {
        continue;
      }
      // Ranges nearer to each other than a vector would share one.
      if (ranges.empty() || j >= ranges.back().end + whole_vector) {
        ranges.push_back({j, j});
      }
      ranges.back().end = std::min(j + 2, stations);
    }
  }
}

bool AxialFactor::takes_link(std::size_t patch, std::size_t station) const {
  return std::any_of(ranges_[patch].begin(), ranges_[patch].end(), [&](const RowRange& range) {
    return range.begin <= station && station + 1 < range.end;
  });
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

bool AxialFactor::can_share(const Row& one, const Row& other) const {
  const auto diffusivity = [](const Row& row) {
    return row.along_times_length / row.heat_per_length;
  };
  // Rings of one material differ by rounding.
  return even_[one.cell] && even_[other.cell] &&
         std::abs(diffusivity(one) / diffusivity(other) - 1.0) < 1e-12;
}

std::size_t AxialFactor::shared_for(const Row& row) {
  const double diffusivity = row.along_times_length / row.heat_per_length;
  const auto same = [&](const Shared& s) {
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
  const auto& rows = network_.rows().rows();
  for (std::size_t r = 0; r < rows.size();) {
    std::size_t end = r + 1;
    while (end < rows.size() && rows[end].patch == rows[r].patch && end - r < rows_of_group) {
      ++end;
    }
    const bool begins = blocks_.empty() || blocks_.back().patch != rows[r].patch ||
                        blocks_.back().groups == groups_of_block;
    if (begins) {
      blocks_.push_back({r, 0, rows[r].patch, 0, groups_.size(), 0});
    }
    lay_group(r, end - r);
    Block& block = blocks_.back();
    block.rows += end - r;
    block.cell = rows[end - 1].cell;
    ++block.groups;
    r = end;
  }
  find_matrices();
}

void AxialFactor::lay_group(std::size_t first_row, std::size_t rows) {
  const Row* row = &network_.rows().rows()[first_row];
  const bool shares =
      std::all_of(row, row + rows, [&](const Row& other) { return can_share(*row, other); });
  // The index of the shared matrix for a while: its place may still move.
  const std::size_t shared = shares ? shared_for(*row) : npos;
  groups_.push_back(
      {row->patch, shared, {rows, row[rows - 1].cell, nullptr, nullptr, nullptr, shares}});
}

void AxialFactor::find_matrices() {
  std::size_t storage = 0;
  std::size_t longest = 0;
  for (Group& group : groups_) {
    const std::size_t stride = network_.grid().patches[group.patch].stride;
    longest = std::max(longest, stride);
    if (!group.rows.shared) {
      group.storage = storage;
      storage += rows_of_group * stride;
    }
  }
  lower_.assign(storage, 0.0);
  inverse_.assign(storage, 0.0);
  for (Group& group : groups_) {
    RowGroup& rows = group.rows;
    if (rows.shared) {
      rows.lower = shared_[group.storage].lower.data();
      rows.inverse = shared_[group.storage].inverse.data();
      rows.weight = network_.rows().lengths(group.patch).data();
    } else {
      rows.lower = &lower_[group.storage];
      rows.inverse = &inverse_[group.storage];
      rows.weight = &weight_[rows.cell];
    }
  }
  scratch_.assign(groups_of_block * rows_of_group * longest, 0.0);
}

/// What gases get and lend, for good where no property follows temperature.
void AxialFactor::gather_gases() {
  const auto onward = network_.onward();
  std::copy(onward.begin(), onward.end(), lent_.begin());
  for (const Gas& gas : gas_) {
    stiffening_[gas.cell] = gas.stiffening * network_.conductivity(gas.cell);
    for (const std::size_t beside : {gas.inside, gas.outside}) {
      if (beside != npos) {
        lent_[beside] += onward[gas.cell];
      }
    }
  }
  gathered_ = network_.properties_are_fixed();
}

void AxialFactor::factor(double s, std::span<const double> capacity) {
  find_ranges(s);
  factor_shared(s);
  if (!gathered_) {
    gather_gases();
  }
  for (const std::size_t f : end_faces_) {
    ends_[network_.grid().faces[f].cell] = network_.face_slope()[f];
  }
  const RowCoefficients of{
      s, 1.0, capacity.data(), stiffening_.data(), ends_.data(), lent_.data(), weight_.data()};
  for (const Block& block : blocks_) {
    factor_block(block, of);
  }
}

/// The groups whose rows have matrices of their own; all of a block's at once where they are.
void AxialFactor::factor_block(const Block& block, const RowCoefficients& of) const {
  std::array<RowGroup, groups_of_block> own;
  std::size_t count = 0;
  for (std::size_t g = block.first_group; g < block.first_group + block.groups; ++g) {
    if (!groups_[g].rows.shared) {
      own[count++] = groups_[g].rows;
    }
  }
  const std::size_t stride = network_.grid().patches[block.patch].stride;
  for (const RowRange& range : ranges_[block.patch]) {
    kernels().factor_rows(own.data(), count, stride, range, of);
  }
}

/// (dz + s diffusivity links) of each diffusivity, side by side: each waits for its own divisions
/// only. The vectors at either end of the range hold stations that are no part of it.
void AxialFactor::factor_shared(double s, std::span<Shared> some, const RowRange& range,
                                const double* length, const double* link) {
  std::array<double, side_by_side> before{};
  std::array<double, side_by_side> pivot{};
  const std::size_t end = std::min(range.vectors_end(), stations_of(some.front().patch));
  for (std::size_t j = range.vectors_begin(); j < end; ++j) {
    const bool linked = range.links(j);
    for (std::size_t k = 0; k < some.size(); ++k) {
      Shared& shared = some[k];
      const double from = before[k];
      const double behind = linked ? s * shared.diffusivity * link[j] : 0.0;
      shared.lower[j] = from * pivot[k];
      pivot[k] = 1.0 / ((length[j] + from + behind) - from * from * pivot[k]);
      shared.inverse[j] = pivot[k];
      before[k] = behind;
    }
  }
}

void AxialFactor::factor_shared(double s) {
  for (std::size_t first = 0; first < shared_.size();) {
    const std::size_t patch = shared_[first].patch;
    std::size_t end = first;
    while (end < shared_.size() && end < first + side_by_side && shared_[end].patch == patch) {
      ++end;
    }
    const double* length = network_.rows().lengths(patch).data();
    const double* link = network_.rows().links(patch);
    for (const RowRange& range : ranges_[patch]) {
      factor_shared(s, {&shared_[first], end - first}, range, length, link);
    }
    first = end;
  }
}

void AxialFactor::solve(const Block& block, std::span<double> x) const {
  const auto& patch = network_.grid().patches[block.patch];
  std::array<RowGroup, groups_of_block> groups;
  for (std::size_t g = 0; g < block.groups; ++g) {
    groups[g] = groups_[block.first_group + g].rows;
  }
  for (const RowRange& range : ranges_[block.patch]) {
    kernels().solve_rows(groups.data(), block.groups, patch.stride, range, x.data(),
                         scratch_.data());
  }
}

}  // namespace ampstair::marching
