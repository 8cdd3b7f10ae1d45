// SPDX-License-Identifier: MIT
#include "marching/outline_windows.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ampstair::marching {

namespace {

constexpr std::size_t none = grid::Grid::npos;

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
    find_ties(window);
    for (Round& round : window.rounds) {
      factor_across(window, round);
    }
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
  for (Round& round : window.rounds) {
    kernels().factor_rows(round.groups.data(), round.groups.size(), window.stride,
                          {0, window.stations},
                          {s_, round.sigma, window.capacity.data(), window.stiffening.data(),
                           window.ends.data(), window.lent.data(), round.weight.data()});
  }
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

void OutlineWindows::find_ties(Window& window) const {
  for (TieSite& site : window.ties) {
    site.conductance = s_ * conductance_of(site);
  }
}

void OutlineWindows::factor_across(const Window& window, Round& round) const {
  const std::size_t size = window.rows * window.stride;
  for (std::size_t c = 0; c < size; ++c) {
    round.column_inverse[c] = round.sigma * window.capacity[c];
  }
  for (const FaceSite& site : window.radial_faces) {
    round.column_inverse[site.local] += s_ * network_.face_slope()[site.face];
  }
  for (const TieSite& site : window.ties) {
    round.column_inverse[site.local] += site.conductance;
  }
  for (std::size_t j = 0; j < window.stations; ++j) {
    round.column_inverse[j] -= s_ * network_.source_slope()[window.first_station + j];
  }
  kernels().factor_columns(window.rows, window.stride, s_, window.inward.data(),
                           round.column_inverse.data(), round.column_lower.data());
  kernels().factor_line(window.stations, s_, window.line.data(), round.column_inverse.data(),
                        round.line_lower.data());
}

// ---- correction -------------------------------------------------------------------------------

void OutlineWindows::keep_axial(std::size_t block, std::span<const double> x) const {
  const auto& kept = axial_of_block_[block];
  kernels().copy_out(kept.data(), kept.size(), x.data());
}

Booked OutlineWindows::correct(std::span<double> x) {
  Booked booked;
  into_bays_.clear();
  kernels().copy_out(first_.data(), first_.size(), x.data());
  for (Window& window : windows_) {
    find_missed(window, booked);
    solve(window, window.rounds.front(), booked);
    for (std::size_t next = 1; next < window.rounds.size(); ++next) {
      solve_again(window, next, booked);
    }
    for (std::size_t c = 0; c < window.earlier.size(); ++c) {
      window.change[c] += window.earlier[c];
    }
  }
  kernels().add_in(change_.data(), change_.size(), x.data());
  for (const Window& window : windows_) {
    hand_on(window, x, booked);
  }
  return booked;
}

/// The first round's gain times rhs - M x = s K_A (v - x), v being what the first pass has after
/// its axial factor: written as flows, so that none leaves the window.
void OutlineWindows::find_missed(Window& window, Booked& booked) {
  const std::size_t begin = window.along_begin * window.stride;
  const std::size_t end = window.along_end * window.stride;
  const Round& round = window.rounds.front();
  // What lies between is written as a whole.
  std::fill_n(window.change.begin(), begin, 0.0);
  std::fill(window.change.begin() + static_cast<std::ptrdiff_t>(end), window.change.end(), 0.0);
  kernels().missed({end - begin, round.gain * s_, &window.axial[begin], &window.per_weight[begin],
                    &window.lent[begin], &window.onward[begin], &window.first[begin],
                    &window.change[begin]});
  for (const FaceSite& site : window.axial_faces) {
    const double v = window.per_weight[site.local] * window.axial[site.local];
    const double heat =
        round.gain * s_ * network_.face_slope()[site.face] * (v - window.first[site.local]);
    window.change[site.local] += heat;
    booked.lost -= heat / round.sigma;
  }
  if (window.rounds.size() > 1) {
    window.wrong = window.change;
    std::fill(window.earlier.begin(), window.earlier.end(), 0.0);
  }
}

/// Solves one round for what stands in window.change, in place.
void OutlineWindows::solve(Window& window, Round& round, Booked& booked) {
  const std::size_t stride = window.stride;
  double* x = window.change.data();
  kernels().solve_rows(round.groups.data(), round.groups.size(), stride, {0, window.stations}, x,
                       window.scratch.data());
  double leaves = 0.0;
  for (const FaceSite& site : window.axial_faces) {
    leaves += s_ * network_.face_slope()[site.face] * x[site.local] / round.weight[site.local];
  }
  const bool several = window.rounds.size() > 1;
  if (several) {
    window.along = window.change;
  }
  kernels().columns_in(several ? window.rows : window.along_end, stride, round.column_lower.data(),
                       x);
  kernels().solve_line(window.stations, round.line_lower.data(), round.column_inverse.data(), x);
  kernels().columns_out(window.rows, stride, round.column_lower.data(), round.column_inverse.data(),
                        x);
  double made = 0.0;
  for (std::size_t j = 0; j < window.stations; ++j) {
    made += s_ * network_.source_slope()[window.first_station + j] * x[j];
  }
  for (const FaceSite& site : window.radial_faces) {
    leaves += s_ * network_.face_slope()[site.face] * x[site.local];
  }
  for (const TieSite& site : window.ties) {
    leaves += site.conductance * x[site.local];
  }
  booked.made += made / round.sigma;
  booked.lost += leaves / round.sigma;
}

/// A further round, for what the one before has left. With w the solution along the run of that
/// one, (sigma C + s K_C) x = w, so what was right-hand side, wrong / gain, leaves
///   wrong / gain - M x = wrong / gain - w + (sigma - 1) C x - s K_A x.
void OutlineWindows::solve_again(Window& window, std::size_t next, Booked& booked) {
  const Round& before = window.rounds[next - 1];
  Round& round = window.rounds[next];
  const double brought = kernels().leave(
      {window.rows * window.stride, window.along_begin * window.stride,
       window.along_end * window.stride, 1.0 / before.gain, before.sigma - 1.0, s_, round.gain,
       window.along.data(), window.capacity.data(), window.onward.data(), window.ends.data(),
       window.wrong.data(), window.change.data(), window.earlier.data()});
  booked.lost -= brought / round.sigma;
  solve(window, round, booked);
}

/// All that leaves has been booked as lost; here side bodies and bays get theirs. After several
/// rounds that is what goes with the correction, which is as good as exact; the one round alone
/// holds 1 / sigma of it.
void OutlineWindows::hand_on(const Window& window, std::span<double> x, Booked& booked) {
  const double part = window.rounds.size() > 1 ? 1.0 : 1.0 / window.rounds.front().sigma;
  for (const TieSite& site : window.ties) {
    const double heat = part * site.conductance * window.change[site.local];
    const std::size_t taking = site.body->first_cell + site.body->holds;
    x[taking] += heat / capacity_[taking];
    booked.lost -= heat;
  }
  if (in_bay_.empty()) {
    return;
  }
  for (const auto* sites : {&window.radial_faces, &window.axial_faces}) {
    for (const FaceSite& site : *sites) {
      if (in_bay_[site.face]) {
        const double heat =
            part * s_ * network_.face_slope()[site.face] * window.change[site.local];
        into_bays_.push_back({site.face, heat});
        booked.lost -= heat;
      }
    }
  }
}

}  // namespace ampstair::marching
