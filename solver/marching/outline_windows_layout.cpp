// SPDX-License-Identifier: MIT
// Where the windows are and what stands in them.
#include <algorithm>
#include <utility>

#include "grid/column.hpp"
#include "marching/outline_windows.hpp"

namespace ampstair::marching {

namespace {

constexpr std::size_t none = grid::Grid::npos;

constexpr std::size_t least_reach = 3;  // stations
constexpr std::size_t whole_vectors = 8;

}  // namespace

OutlineWindows::OutlineWindows(const HeatNetwork& network, const AxialFactor& axial,
                               const Passes& passes)
    : network_(network), axial_(axial), passes_(passes) {
  if (!network.grid().bays.empty()) {
    in_bay_.assign(network.grid().faces.size(), false);
    for (const BaySite& site : network.bay_sites()) {
      in_bay_[site.face] = true;
    }
  }
  for (const Extent& extent : extents()) {
    add_window(extent);
  }
  lay_rectangles();
}

OutlineWindows::Extent OutlineWindows::extent_about(std::size_t station) const {
  const auto& grid = network_.grid();
  const auto& face = grid.station_face;
  const double reach = passes_.reach_in_radii * grid.patches[1].radius.back();
  // As many stations on either side, so that a run walked through from its other end has the same
  // windows; half a vector's worth at a time.
  std::size_t half = least_reach;
  while (half < grid.stations() &&
         ((half <= station && face[station] - face[station - half] < reach) ||
          (station + half < face.size() && face[station + half] - face[station] < reach))) {
    ++half;
  }
  half = (half + whole_vectors / 2 - 1) / (whole_vectors / 2) * (whole_vectors / 2);
  Extent extent{station - std::min(station, half), std::min(station + half, grid.stations()), none,
                0};
  auto lower = grid::column_at(grid, station - 1);
  auto higher = grid::column_at(grid, station);
  if (lower.back().outer_radius > higher.back().outer_radius) {
    std::swap(lower, higher);
  }
  const double corner = lower.back().outer_radius;
  for (std::size_t i = 0; i < higher.size(); ++i) {
    if (higher[i].outer_radius > corner - reach && higher[i].inner_radius < corner + reach) {
      extent.first_row = std::min(extent.first_row, i);
      extent.last_row = i + 1;
    }
  }
  return extent;
}

/// Whether the outline steps from the station before to this one, or a side body begins or ends.
bool OutlineWindows::corner_at(std::size_t station) const {
  const auto& grid = network_.grid();
  if (grid.top_patch[station] != grid.top_patch[station - 1]) {
    return true;
  }
  const auto takes_heat = [&](const grid::SideBody& body, std::size_t at) {
    return std::any_of(body.ties.begin(), body.ties.end(), [&](const auto& tie) {
      return tie.station == at && tie.cell != tie.station;
    });
  };
  return passes_.where_ties_end &&
         std::any_of(grid.bodies.begin(), grid.bodies.end(), [&](const grid::SideBody& body) {
           return !body.branch && takes_heat(body, station) != takes_heat(body, station - 1);
         });
}

/// Windows that overlap become one.
std::vector<OutlineWindows::Extent> OutlineWindows::extents() const {
  const auto& grid = network_.grid();
  std::vector<Extent> found;
  if (grid.patches.size() < 2) {
    return found;  // a bare wire: nothing lies across
  }
  for (std::size_t j = 1; j < grid.stations(); ++j) {
    if (!corner_at(j)) {
      continue;
    }
    const Extent extent = extent_about(j);
    if (!found.empty() && found.back().last_station > extent.first_station) {
      Extent& last = found.back();
      last.last_station = std::max(last.last_station, extent.last_station);
      last.first_row = std::min(last.first_row, extent.first_row);
      last.last_row = std::max(last.last_row, extent.last_row);
    } else {
      found.push_back(extent);
    }
  }
  return found;
}

std::vector<std::pair<std::size_t, std::size_t>> OutlineWindows::stations() const {
  std::vector<std::pair<std::size_t, std::size_t>> all;
  for (const Window& window : windows_) {
    all.emplace_back(window.first_station, window.stations);
  }
  return all;
}

std::vector<bool> OutlineWindows::cells() const {
  std::vector<bool> inside(network_.grid().cells, false);
  for (const Window& window : windows_) {
    for (const Piece& piece : window.pieces) {
      for (std::size_t i = 0; i < piece.rows; ++i) {
        const auto row =
            inside.begin() + static_cast<std::ptrdiff_t>(piece.cell + i * piece.stride);
        std::fill_n(row, piece.stations, true);
      }
    }
  }
  return inside;
}

std::size_t OutlineWindows::work() const {
  std::size_t cells = 0;
  for (const Window& window : windows_) {
    cells += window.rounds.size() * window.rows * window.stride;
  }
  return cells;
}

void OutlineWindows::add_window(const Extent& extent) {
  Window window;
  window.first_station = extent.first_station;
  window.stations = extent.last_station - extent.first_station;
  window.stride = (window.stations + whole_vectors - 1) / whole_vectors * whole_vectors;
  window.along_begin = std::max<std::size_t>(extent.first_row, 1);  // not the conductor
  window.along_end = extent.last_row;
  if (window.along_begin >= window.along_end) {
    return;
  }
  lay_pieces(extent, window);
  find_sites(window);
  allocate(window);
  windows_.push_back(std::move(window));
}

void OutlineWindows::lay_pieces(const Extent& extent, Window& window) const {
  const auto& grid = network_.grid();
  std::vector<std::size_t> first_row(grid.patches.size(), 0);
  for (std::size_t p = 0; p < grid.patches.size(); ++p) {
    const auto& patch = grid.patches[p];
    if (p > 0) {
      first_row[p] = first_row[patch.parent] + grid.patches[patch.parent].rows;
    }
    const std::size_t from = std::max(extent.first_station, patch.first_station);
    const std::size_t to = std::min(extent.last_station, patch.first_station + patch.stations);
    if (from < to) {
      window.pieces.push_back(
          {p, first_row[p], patch.offset + from - patch.first_station, patch.stride,
           first_row[p] * window.stride + from - extent.first_station, patch.rows, to - from});
      window.rows = std::max(window.rows, first_row[p] + patch.rows);
    }
  }
}

/// Faces and gas cells in the window.
void OutlineWindows::find_sites(Window& window) const {
  const auto local_of = [&](std::size_t cell) {
    for (const Piece& piece : window.pieces) {
      if (cell < piece.cell) {
        continue;
      }
      const std::size_t row = (cell - piece.cell) / piece.stride;
      const std::size_t station = (cell - piece.cell) % piece.stride;
      if (row < piece.rows && station < piece.stations) {
        return piece.local + row * window.stride + station;
      }
    }
    return none;
  };
  const auto& faces = network_.grid().faces;
  for (std::size_t f = 0; f < faces.size(); ++f) {
    const std::size_t local = local_of(faces[f].cell);
    if (local == none) {
      continue;
    }
    const std::size_t row = local / window.stride;
    if (!faces[f].axial) {
      window.radial_faces.push_back({local, f});
    } else if (row >= window.along_begin && row < window.along_end) {
      window.axial_faces.push_back({local, f});
    }
  }
  for (const auto& body : network_.grid().bodies) {
    for (const auto& tie : body.ties) {
      if (const std::size_t local = local_of(tie.cell); local != none) {
        window.ties.push_back({local, &body, &tie, 0.0});
      }
    }
  }
  const auto& gases = axial_.gases();
  for (std::size_t g = 0; g < gases.size(); ++g) {
    if (const std::size_t local = local_of(gases[g].cell); local != none) {
      const auto beside = [&](std::size_t cell) { return cell == none ? none : local_of(cell); };
      window.gases.push_back({local, beside(gases[g].inside), beside(gases[g].outside), g});
    }
  }
}

void OutlineWindows::allocate(Window& window) const {
  const std::size_t size = window.rows * window.stride;
  for (Cells* cells : {&window.stiffening, &window.onward, &window.lent, &window.inward,
                       &window.ends, &window.axial, &window.first, &window.change}) {
    cells->assign(size + whole_vectors, 0.0);
  }
  for (Cells* cells : {&window.capacity, &window.per_weight}) {
    cells->assign(size + whole_vectors, 1.0);
  }
  window.line.assign(window.stride, 0.0);
  window.scratch.assign(16 * window.stride, 0.0);
  for (const double omega : passes_.omega) {
    window.rounds.push_back(round(window, omega));
  }
  if (window.rounds.size() > 1) {
    for (Cells* cells : {&window.earlier, &window.wrong, &window.along}) {
      cells->assign(size + whole_vectors, 0.0);
    }
  }
}

OutlineWindows::Round OutlineWindows::round(const Window& window, double omega) const {
  Round round;
  round.sigma = omega + 0.5;
  round.gain = 2.0 * omega / round.sigma;
  const std::size_t size = window.rows * window.stride;
  round.column_lower.assign(size + whole_vectors, 0.0);
  round.weight.assign(size + whole_vectors, 1.0);
  round.column_inverse.assign(size + whole_vectors, 1.0);
  round.line_lower.assign(window.stride, 0.0);
  for (Cells* cells : {&round.lower, &round.inverse}) {
    cells->assign((window.rows + 7) / 8 * 8 * window.stride, 0.0);
  }
  const std::size_t begin = window.along_begin * window.stride;
  for (std::size_t row = window.along_begin; row < window.along_end; row += 8) {
    const std::size_t cell = row * window.stride;
    round.groups.push_back({std::min<std::size_t>(8, window.along_end - row), cell,
                            &round.lower[cell - begin], &round.inverse[cell - begin],
                            &round.weight[cell], false});
  }
  return round;
}

/// Rectangles of the rows of a piece, counted within the patch, that lie in
/// [first_row, first_row + rows) and whose conduction along the run counts.
void OutlineWindows::add_rows_that_count(const Window& window, const Piece& piece,
                                         std::size_t first_row, std::size_t rows, double* local,
                                         std::vector<Rectangle>& rectangles) {
  const std::size_t from = std::max(piece.first_row + first_row, window.along_begin);
  const std::size_t to = std::min(piece.first_row + first_row + rows, window.along_end);
  if (from < to) {
    const std::size_t skipped = from - piece.first_row;
    rectangles.push_back({to - from, piece.stations, piece.cell + skipped * piece.stride,
                          piece.stride, local + piece.local + skipped * window.stride,
                          window.stride});
  }
}

void OutlineWindows::lay_rectangles() {
  for (const auto& block : axial_.blocks()) {
    const auto& patch = network_.grid().patches[block.patch];
    const std::size_t first_row = (block.cell - patch.offset) / patch.stride;
    auto& kept = axial_of_block_.emplace_back();
    for (Window& window : windows_) {
      for (const Piece& piece : window.pieces) {
        if (piece.patch == block.patch) {
          add_rows_that_count(window, piece, first_row, block.rows, window.axial.data(), kept);
        }
      }
    }
  }
  for (Window& window : windows_) {
    for (const Piece& piece : window.pieces) {
      add_rows_that_count(window, piece, 0, piece.rows, window.first.data(), first_);
      change_.push_back({piece.rows, piece.stations, piece.cell, piece.stride,
                         &window.change[piece.local], window.stride});
    }
  }
}

}  // namespace ampstair::marching
