// SPDX-License-Identifier: MIT
#include "marching/outline_windows.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "grid/column.hpp"

namespace ampstair::marching {

namespace {

constexpr std::size_t none = grid::Grid::npos;

// Found by trial: 5 to 20 serve equally for cells of 0.1 to 1 mm and steps of 1 to 200 s.
constexpr double omega = 8.0;
constexpr double sigma = omega + 0.5;
constexpr double gain = 2.0 * omega / sigma;

// How far a corner is felt along the run and across it, as a part of the covering's outer radius;
// found by trial too: half of it still serves.
constexpr double reach_in_radii = 0.7;
constexpr std::size_t least_reach = 3;  // stations
constexpr std::size_t whole_vectors = 8;

}  // namespace

OutlineWindows::OutlineWindows(const HeatNetwork& network, const AxialFactor& axial)
    : network_(network), axial_(axial) {
  if (!network.grid().bays.empty()) {
    in_bay_.assign(network.grid().faces.size(), false);
    for (const BaySite& site : network.bay_sites()) {
      in_bay_[site.face] = true;
    }
  }
  for (const Extent& extent : extents()) {
    add_window(extent);
  }
}

// ---- where ------------------------------------------------------------------------------------

OutlineWindows::Extent OutlineWindows::extent_about(std::size_t station) const {
  const auto& grid = network_.grid();
  const auto& face = grid.station_face;
  const double reach = reach_in_radii * grid.patches[1].radius.back();
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

/// Windows that overlap become one.
std::vector<OutlineWindows::Extent> OutlineWindows::extents() const {
  const auto& grid = network_.grid();
  std::vector<Extent> found;
  if (grid.patches.size() < 2) {
    return found;  // a bare wire: nothing lies across
  }
  for (std::size_t j = 1; j < grid.stations(); ++j) {
    if (grid.top_patch[j] == grid.top_patch[j - 1]) {
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
  std::vector<std::size_t> local_cell(network_.grid().cells, none);
  for (const Piece& piece : window.pieces) {
    for (std::size_t i = 0; i < piece.rows; ++i) {
      for (std::size_t j = 0; j < piece.stations; ++j) {
        local_cell[piece.cell + i * piece.stride + j] = piece.local + i * window.stride + j;
      }
    }
  }
  const auto local_of = [&](std::size_t cell) { return local_cell[cell]; };
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

void OutlineWindows::allocate(Window& window) {
  const std::size_t size = window.rows * window.stride;
  for (Cells* cells :
       {&window.stiffening, &window.onward, &window.lent, &window.inward, &window.link,
        &window.column_lower, &window.axial, &window.first, &window.change}) {
    cells->assign(size + whole_vectors, 0.0);
  }
  for (Cells* cells : {&window.capacity, &window.weight, &window.gained, &window.diagonal,
                       &window.per_weight, &window.column_inverse}) {
    cells->assign(size + whole_vectors, 1.0);
  }
  for (Cells* cells : {&window.line, &window.line_lower}) {
    cells->assign(window.stride, 0.0);
  }
  for (Cells* cells : {&window.lower, &window.inverse}) {
    cells->assign((window.rows + 7) / 8 * 8 * window.stride, 0.0);
  }
  window.scratch.assign(16 * window.stride, 0.0);
}

// ---- factors ----------------------------------------------------------------------------------

void OutlineWindows::factor(double s, std::span<const double> capacity) {
  s_ = s;
  capacity_ = capacity;
  for (Window& window : windows_) {
    if (!gathered_ || !network_.properties_are_fixed()) {
      gather(window, capacity);
    }
    factor_along(window);
    factor_across(window);
  }
  gathered_ = true;
}

void OutlineWindows::gather(Window& window, std::span<const double> capacity) const {
  for (const Piece& piece : window.pieces) {
    for (std::size_t i = 0; i < piece.rows; ++i) {
      const std::size_t cell = piece.cell + i * piece.stride;
      const std::size_t local = piece.local + i * window.stride;
      const std::size_t row = local / window.stride;
      const bool counts = row >= window.along_begin && row < window.along_end;
      for (std::size_t j = 0; j < piece.stations; ++j) {
        // No link leaves the window.
        const double onward = j + 1 < piece.stations ? network_.onward()[cell + j] : 0.0;
        window.capacity[local + j] = capacity[cell + j];
        window.inward[local + j] = network_.inward()[cell + j];
        if (row == 0) {
          window.line[local + j] = onward;
        }
        window.onward[local + j] = counts ? onward : 0.0;
      }
    }
  }
  std::copy(window.onward.begin(), window.onward.end(), window.lent.begin());
  for (const GasSite& site : window.gases) {
    const auto& gas = axial_.gases()[site.gas];
    window.stiffening[site.local] = gas.stiffening * network_.conductivity(gas.cell);
    for (const std::size_t beside : {site.inside, site.outside}) {
      if (beside != none) {
        window.lent[beside] += window.onward[site.local];
      }
    }
  }
}

void OutlineWindows::factor_along(Window& window) const {
  const std::size_t begin = window.along_begin * window.stride;
  const std::size_t end = window.along_end * window.stride;
  double before = 0.0;
  for (std::size_t c = begin; c < end; ++c) {
    const double stiff = s_ * window.stiffening[c];
    window.link[c] = s_ * window.lent[c];
    window.weight[c] = sigma * window.capacity[c] + stiff;
    window.gained[c] = gain * window.weight[c];
    window.per_weight[c] = 1.0 / (window.capacity[c] + stiff);
    window.diagonal[c] = window.weight[c] + window.link[c] + before;
    before = window.link[c];
  }
  for (const FaceSite& site : window.axial_faces) {
    window.diagonal[site.local] += s_ * network_.face_slope()[site.face];
  }
  kernels().factor_rows(window.along_end - window.along_begin, window.stride, window.stations,
                        &window.diagonal[begin], &window.link[begin], window.lower.data(),
                        window.inverse.data());
}

/// W/K from a tie's cell to the body's cell that takes heat.
double OutlineWindows::conductance_of(const TieSite& site) const {
  const grid::SideBody& body = *site.body;
  const double tie = network_.tie_slope(body, *site.tie).conductance;
  if (body.holds == body.tied) {
    return tie;
  }
  double resistance = 1.0 / tie;
  for (std::size_t i = body.tied; i < body.holds; ++i) {
    const std::size_t cell = body.first_cell + i;
    resistance += 1.0 / network_.link_conductance(body.chain[i], cell, cell + 1);
  }
  return 1.0 / resistance;
}

void OutlineWindows::factor_across(Window& window) const {
  const std::size_t size = window.rows * window.stride;
  for (std::size_t c = 0; c < size; ++c) {
    window.column_inverse[c] = sigma * window.capacity[c];
  }
  for (const FaceSite& site : window.radial_faces) {
    window.column_inverse[site.local] += s_ * network_.face_slope()[site.face];
  }
  for (TieSite& site : window.ties) {
    site.conductance = s_ * conductance_of(site);
    window.column_inverse[site.local] += site.conductance;
  }
  for (std::size_t j = 0; j < window.stations; ++j) {
    window.column_inverse[j] -= s_ * network_.source_slope()[window.first_station + j];
  }
  for (std::size_t i = window.rows; i-- > 1;) {
    const std::size_t here = i * window.stride;
    kernels().eliminate({window.stride,
                         {&window.inward[here], s_},
                         &window.column_inverse[here],
                         &window.column_lower[here],
                         {},
                         &window.column_inverse[here - window.stride]});
  }
  kernels().factor_line(window.stations, s_, window.line.data(), window.column_inverse.data(),
                        window.line_lower.data());
}

// ---- correction -------------------------------------------------------------------------------

/// Calls with (first cell in the grid, first cell in the window, rows) of a piece, for those of its
/// rows, counted within the patch, that lie in [first_row, first_row + rows) and whose conduction
/// along the run counts.
template <class Use>
void OutlineWindows::rows_that_count(const Window& window, const Piece& piece,
                                     std::size_t first_row, std::size_t rows, const Use& use) {
  const std::size_t from = std::max(piece.first_row + first_row, window.along_begin);
  const std::size_t to = std::min(piece.first_row + first_row + rows, window.along_end);
  if (from < to) {
    const std::size_t skipped = from - piece.first_row;
    use(piece.cell + skipped * piece.stride, piece.local + skipped * window.stride, to - from);
  }
}

void OutlineWindows::keep_axial(std::size_t patch, std::size_t first_row, std::size_t rows,
                                std::span<const double> x) {
  for (Window& window : windows_) {
    for (const Piece& piece : window.pieces) {
      if (piece.patch == patch) {
        const auto take = [&](std::size_t cell, std::size_t local, std::size_t count) {
          kernels().copy(count, piece.stations, &x[cell], piece.stride, &window.axial[local],
                         window.stride);
        };
        rows_that_count(window, piece, first_row, rows, take);
      }
    }
  }
}

/// Books heat that leaves through a face as lost, or keeps it for the bay the face lies in.
void OutlineWindows::lose(std::size_t face, double heat, Booked& booked) {
  if (!in_bay_.empty() && in_bay_[face]) {
    into_bays_.push_back({face, heat});
  } else {
    booked.lost += heat;
  }
}

Booked OutlineWindows::correct(std::span<double> x) {
  Booked booked;
  into_bays_.clear();
  for (Window& window : windows_) {
    for (const Piece& piece : window.pieces) {
      const auto take = [&](std::size_t cell, std::size_t local, std::size_t rows) {
        kernels().copy(rows, piece.stations, &x[cell], piece.stride, &window.first[local],
                       window.stride);
      };
      rows_that_count(window, piece, 0, piece.rows, take);
    }
    find_missed(window, booked);
    solve(window, booked);
    for (const Piece& piece : window.pieces) {
      kernels().add(piece.rows, piece.stations, &window.change[piece.local], window.stride,
                    &x[piece.cell], piece.stride);
    }
    for (const TieSite& site : window.ties) {
      const double heat = site.conductance * window.change[site.local] / sigma;
      const std::size_t taking = site.body->first_cell + site.body->holds;
      x[taking] += heat / capacity_[taking];
    }
  }
  return booked;
}

/// rhs - M x = s K_A (v - x), v being what the first pass has after its axial factor: written as
/// flows, so that none leaves the window.
void OutlineWindows::find_missed(Window& window, Booked& booked) {
  const std::size_t begin = window.along_begin * window.stride;
  const std::size_t end = window.along_end * window.stride;
  // What lies between is written as a whole.
  std::fill_n(window.change.begin(), begin, 0.0);
  std::fill(window.change.begin() + static_cast<std::ptrdiff_t>(end), window.change.end(), 0.0);
  kernels().missed({end - begin, s_, &window.axial[begin], &window.per_weight[begin],
                    &window.lent[begin], &window.onward[begin], &window.first[begin],
                    &window.change[begin]});
  for (const FaceSite& site : window.axial_faces) {
    const double v = window.per_weight[site.local] * window.axial[site.local];
    const double heat = s_ * network_.face_slope()[site.face] * (v - window.first[site.local]);
    window.change[site.local] += heat;
    lose(site.face, -gain / sigma * heat, booked);
  }
}

void OutlineWindows::solve(Window& window, Booked& booked) {
  const std::size_t stride = window.stride;
  const std::size_t begin = window.along_begin * stride;
  double* x = window.change.data();
  kernels().solve_rows(window.along_end - window.along_begin, stride, window.stations,
                       window.lower.data(), window.inverse.data(), &window.gained[begin], x + begin,
                       window.scratch.data());
  for (const FaceSite& site : window.axial_faces) {
    lose(site.face,
         gain / sigma * s_ * network_.face_slope()[site.face] * x[site.local] /
             window.gained[site.local],
         booked);
  }
  kernels().columns_in(window.along_end, stride, window.column_lower.data(), x);
  kernels().solve_line(window.stations, window.line_lower.data(), window.column_inverse.data(), x);
  kernels().columns_out(window.rows, stride, window.column_lower.data(),
                        window.column_inverse.data(), x);
  for (std::size_t j = 0; j < window.stations; ++j) {
    booked.made += s_ * network_.source_slope()[window.first_station + j] * x[j] / sigma;
  }
  for (const FaceSite& site : window.radial_faces) {
    lose(site.face, s_ * network_.face_slope()[site.face] * x[site.local] / sigma, booked);
  }
}

}  // namespace ampstair::marching
