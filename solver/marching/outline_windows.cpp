// SPDX-License-Identifier: MIT
#include "marching/outline_windows.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ampstair::marching {

namespace {

constexpr std::size_t none = grid::Grid::npos;

// Found by trial: 5 to 20 serve equally for cells of 0.1 to 1 mm and steps of 1 to 200 s.
constexpr double omega = 8.0;
constexpr double sigma = omega + 0.5;
constexpr double gain = 2.0 * omega / sigma;

}  // namespace

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
  kernels().reciprocal(end - begin, &window.capacity[begin], s_, &window.stiffening[begin],
                       &window.per_weight[begin]);
  for (const FaceSite& site : window.axial_faces) {
    window.ends[site.local] = network_.face_slope()[site.face];
  }
  kernels().factor_rows(window.groups.data(), window.groups.size(), window.stride,
                        {0, window.stations},
                        {s_, sigma, window.capacity.data(), window.stiffening.data(),
                         window.ends.data(), window.lent.data(), window.weight.data()});
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
  kernels().factor_columns(window.rows, window.stride, s_, window.inward.data(),
                           window.column_inverse.data(), window.column_lower.data());
  kernels().factor_line(window.stations, s_, window.line.data(), window.column_inverse.data(),
                        window.line_lower.data());
}

// ---- correction -------------------------------------------------------------------------------

void OutlineWindows::keep_axial(std::size_t block, std::span<const double> x) const {
  const auto& kept = axial_of_block_[block];
  kernels().copy_out(kept.data(), kept.size(), x.data());
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
  kernels().copy_out(first_.data(), first_.size(), x.data());
  for (Window& window : windows_) {
    find_missed(window, booked);
    solve(window, booked);
  }
  kernels().add_in(change_.data(), change_.size(), x.data());
  for (const Window& window : windows_) {
    for (const TieSite& site : window.ties) {
      const double heat = site.conductance * window.change[site.local] / sigma;
      const std::size_t taking = site.body->first_cell + site.body->holds;
      x[taking] += heat / capacity_[taking];
    }
  }
  return booked;
}

/// 2 omega / sigma times rhs - M x = s K_A (v - x), v being what the first pass has after its axial
/// factor: written as flows, so that none leaves the window.
void OutlineWindows::find_missed(Window& window, Booked& booked) {
  const std::size_t begin = window.along_begin * window.stride;
  const std::size_t end = window.along_end * window.stride;
  // What lies between is written as a whole.
  std::fill_n(window.change.begin(), begin, 0.0);
  std::fill(window.change.begin() + static_cast<std::ptrdiff_t>(end), window.change.end(), 0.0);
  kernels().missed({end - begin, gain * s_, &window.axial[begin], &window.per_weight[begin],
                    &window.lent[begin], &window.onward[begin], &window.first[begin],
                    &window.change[begin]});
  for (const FaceSite& site : window.axial_faces) {
    const double v = window.per_weight[site.local] * window.axial[site.local];
    const double heat =
        gain * s_ * network_.face_slope()[site.face] * (v - window.first[site.local]);
    window.change[site.local] += heat;
    lose(site.face, -heat / sigma, booked);
  }
}

void OutlineWindows::solve(Window& window, Booked& booked) {
  const std::size_t stride = window.stride;
  double* x = window.change.data();
  kernels().solve_rows(window.groups.data(), window.groups.size(), stride, {0, window.stations}, x,
                       window.scratch.data());
  for (const FaceSite& site : window.axial_faces) {
    lose(
        site.face,
        s_ * network_.face_slope()[site.face] * x[site.local] / (sigma * window.weight[site.local]),
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
