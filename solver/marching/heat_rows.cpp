// SPDX-License-Identifier: MIT
#include "marching/heat_rows.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "grid/column.hpp"

namespace ampstair::marching {

namespace {

constexpr double pi = std::numbers::pi;

double ring(const grid::Patch& patch, std::size_t row) {
  return pi *
         (patch.radius[row + 1] * patch.radius[row + 1] - patch.radius[row] * patch.radius[row]);
}

}  // namespace

std::size_t row_below(const grid::Grid& grid, const grid::Patch& patch, std::size_t row) {
  if (row > 0) {
    return patch.row(row - 1);
  }
  const grid::Patch& parent = grid.patches[patch.parent];
  return parent.row(parent.rows - 1) + patch.first_station - parent.first_station;
}

double outer_path(const grid::Patch& patch, std::size_t row) {
  const double inner = patch.radius[row];
  const double outer = patch.radius[row + 1];
  // The conductor is at one temperature all over its section.
  return inner > 0.0 ? std::log(outer) - grid::log_mean_radius(inner, outer) : 0.0;
}

double inner_path(const grid::Patch& patch, std::size_t row) {
  return grid::log_mean_radius(patch.radius[row], patch.radius[row + 1]) -
         std::log(patch.radius[row]);
}

HeatRows::HeatRows(const grid::Grid& grid, std::span<const FixedMedium> media,
                   const CellCoefficients& cells)
    : grid_(grid) {
  for (const auto& patch : grid.patches) {
    share(patch);
  }
  for (std::size_t p = 1; p < grid.patches.size(); ++p) {
    shared_[grid.patches[p].parent].carries = true;
  }
  for (std::size_t p = grid.patches.size(); p-- > 1;) {
    for (std::size_t i = grid.patches[p].rows; i-- > 0;) {
      add_row(p, i, media, cells);
    }
  }
  for (std::size_t r = 0; r < rows_.size(); ++r) {
    heat_rows_.push_back(heat_row(r));
  }
  const auto& line = grid.patches.front();
  conductor_.is_line = true;
  conductor_.n = line.stride;
  conductor_.stations = line.stations;
  conductor_.along = {cells.onward.data()};
  conductor_.capacity = {cells.capacity.data()};
  conductor_.from_above = shared_[0].carries ? shared_[0].from_above.data() : nullptr;
}

void HeatRows::share(const grid::Patch& patch) {
  Shared shared;
  shared.length.assign(patch.stride, 0.0);
  shared.link.assign(patch.stride, 0.0);
  shared.from_above.assign(patch.stride, 0.0);
  const double* face = grid_.station_face.data() + patch.first_station;
  for (std::size_t j = 0; j < patch.stations; ++j) {
    shared.length[j] = face[j + 1] - face[j];
    if (j + 1 < patch.stations) {
      shared.link[j] = 2.0 / (face[j + 2] - face[j]);
    }
  }
  shared_.push_back(std::move(shared));
}

/// The fixed medium that all cells of a stretch of a row are made of; none if they are not.
const FixedMedium* HeatRows::only_medium(std::span<const FixedMedium> media, std::size_t cell,
                                         std::size_t stations) const {
  const std::size_t first = grid_.medium[cell];
  for (std::size_t c = cell; c < cell + stations; ++c) {
    if (grid_.medium[c] != first) {
      return nullptr;
    }
  }
  return media[first].conductivity > 0.0 ? &media[first] : nullptr;
}

void HeatRows::add_row(std::size_t p, std::size_t i, std::span<const FixedMedium> media,
                       const CellCoefficients& cells) {
  const grid::Patch& patch = grid_.patches[p];
  Row row;
  row.patch = p;
  row.cell = patch.row(i);
  row.stations = patch.stations;
  row.stride = patch.stride;
  row.below = row_below(grid_, patch, i);
  row.bottom = i == 0;
  row.top = i + 1 == patch.rows;
  row.along = {cells.onward.data() + row.cell};
  row.inward = {cells.inward.data() + row.cell};
  row.capacity = {cells.capacity.data() + row.cell};
  const FixedMedium* own = only_medium(media, row.cell, row.stations);
  const FixedMedium* below = only_medium(media, row.below, row.stations);
  if (own != nullptr && below != nullptr) {
    make_even(row, i, *own, below);
  }
  rows_.push_back(row);
}

void HeatRows::make_even(Row& row, std::size_t i, const FixedMedium& own,
                         const FixedMedium* below) {
  const grid::Patch& patch = grid_.patches[row.patch];
  const grid::Patch& host = i > 0 ? patch : grid_.patches[patch.parent];
  const double from = outer_path(host, i > 0 ? i - 1 : host.rows - 1);
  row.even = true;
  row.along_times_length = own.conductivity * ring(patch, i);
  row.heat_per_length = own.heat_per_volume * ring(patch, i);
  row.along = {links(row.patch), row.along_times_length};
  row.inward = {lengths(row.patch).data(),
                2.0 * pi / (from / below->conductivity + inner_path(patch, i) / own.conductivity)};
  row.capacity = {lengths(row.patch).data(), row.heat_per_length};
}

HeatRow HeatRows::heat_row(std::size_t index) {
  const Row& row = rows_[index];
  HeatRow heat;
  heat.n = row.stride;
  heat.stations = row.stations;
  heat.cell = row.cell;
  heat.below = row.below;
  heat.along = row.along;
  heat.inward = row.inward;
  heat.capacity = row.capacity;
  if (!row.top) {  // the row above stands before this one
    heat.has_above = true;
    heat.above = row.cell + row.stride;
    heat.outward = rows_[index - 1].inward;
  } else if (shared_[row.patch].carries) {
    heat.from_above = shared_[row.patch].from_above.data();
  }
  if (row.bottom) {
    const auto& patch = grid_.patches[row.patch];
    heat.given = shared_[patch.parent].from_above.data() + patch.first_station -
                 grid_.patches[patch.parent].first_station;
  }
  return heat;
}

void HeatRows::sum_on_the_way(const std::vector<bool>& late) {
  for (std::size_t r = 0; r + 1 < rows_.size(); ++r) {
    const Row& below = rows_[r + 1];
    if (!rows_[r].bottom && late[r + 1]) {
      heat_rows_[r].sum_cell = below.cell;
      heat_rows_[r].sum_n = below.stride;
    }
  }
}

void HeatRows::fill(std::size_t first_row, std::size_t count, const HeatStage& stage) const {
  kernels().heat_rows(heat_rows_.data() + first_row, count, stage);
}

void HeatRows::fill_conductor(const HeatStage& stage) const {
  kernels().heat_rows(&conductor_, 1, stage);
}

}  // namespace ampstair::marching
