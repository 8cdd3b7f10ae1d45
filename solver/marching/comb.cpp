// SPDX-License-Identifier: MIT
#include "marching/comb.hpp"

namespace ampstair::marching {

Comb::Comb(const HeatNetwork& network)
    : network_(network),
      axial_(network),
      radial_(network),
      bays_(network),
      brief_(network, axial_, OutlineWindows::brief()),
      thorough_(network, axial_, OutlineWindows::thorough()) {
  for (const OutlineWindows* windows : {&brief_, &thorough_}) {
    for (const auto& [first, count] : windows->stations()) {
      axial_.always_take(first, count);
    }
  }
  axial_.take_capacities();
  capacity_.assign(network.capacity().begin(), network.capacity().end());
  const auto& grid = network.grid();
  for (const auto& block : axial_.blocks()) {
    const std::size_t end = block.cell + block.rows * grid.patches[block.patch].stride;
    end_faces_.emplace_back();
    for (std::size_t f = 0; f < grid.faces.size(); ++f) {
      const auto& face = grid.faces[f];
      if (face.axial && face.cell >= block.cell && face.cell < end) {
        end_faces_.back().push_back(f);
      }
    }
  }
  for (std::size_t f = 0; f < grid.faces.size(); ++f) {
    if (!grid.faces[f].axial) {
      radial_faces_.push_back(f);
      radial_cells_.push_back(grid.faces[f].cell);
    }
  }
  for (const SharedSurface& shared : network.shared_surfaces()) {
    radial_cells_.push_back(shared.head);
  }
  if (!bays_.empty()) {
    in_bay_.assign(grid.faces.size(), false);
    for (const BaySite& site : network.bay_sites()) {
      in_bay_[site.face] = true;
    }
  }
  radial_slopes_.assign(radial_cells_.size(), 0.0);
}

void Comb::take_capacities(std::span<const std::size_t> cells) {
  for (const std::size_t c : cells) {
    capacity_[c] = network_.capacity()[c];
  }
  if (!cells.empty()) {
    axial_.take_capacities();
  }
}

void Comb::take_capacities() {
  capacity_.assign(network_.capacity().begin(), network_.capacity().end());
  axial_.take_capacities();
}

void Comb::factor(double s, std::span<const double> slope, Corners corners) {
  s_ = s;
  windows_ = corners == Corners::thorough ? &thorough_ : &brief_;
  if (corners == Corners::neglected || windows_->empty()) {
    windows_ = nullptr;
  }
  for (const std::size_t c : network_.enthalpy_cells()) {
    capacity_[c] = network_.capacity()[c] / slope[c];
  }
  for (std::size_t k = 0; k < radial_faces_.size(); ++k) {
    radial_slopes_[k] = s * network_.face_slope()[radial_faces_[k]];
  }
  std::size_t next = radial_faces_.size();
  for (const SharedSurface& shared : network_.shared_surfaces()) {
    radial_slopes_[next++] = s * shared.head_slope;
  }
  axial_.factor(s, capacity_);
  radial_.factor(s, capacity_);
  if (windows_ != nullptr) {
    windows_->factor(s, capacity_);
  }
  if (!bays_.empty()) {
    factor_bays(s);
  }
}

void Comb::factor_bays(double s) {
  for (std::size_t k = 0; k < radial_faces_.size(); ++k) {
    if (in_bay_[radial_faces_[k]]) {
      radial_slopes_[k] = 0.0;  // not lost yet
    }
  }
  std::size_t next = radial_faces_.size();
  for (const SharedSurface& shared : network_.shared_surfaces()) {
    radial_slopes_[next] = in_bay_[shared.face] ? 0.0 : radial_slopes_[next];
    ++next;
  }
  bays_.factor(s, capacity_, [&](std::span<double> x) { solve_radial(x); });
  booked_per_node_.assign(bays_.nodes().size(), Booked{});
  for (std::size_t node = 0; node < bays_.nodes().size(); ++node) {
    book(bays_.influence(node), booked_per_node_[node]);
    booked_per_node_[node].lost += bays_.loss(node);
  }
}

void Comb::solve_radial(std::span<double> x) const {
  radial_.gather(0, network_.rows().rows().size(), x);
  radial_.gather_conductor(x);
  radial_.finish(x);
}

/// After the two factors and the windows: bays take what has come to them, and answer.
void Comb::close_bays(std::span<double> x, Booked& booked) {
  for (const FaceHeat& given :
       windows_ != nullptr ? windows_->into_bays() : std::vector<FaceHeat>()) {
    bays_.give(given.face, given.heat);
  }
  const auto change = bays_.spread(x);
  for (std::size_t node = 0; node < change.size(); ++node) {
    booked.made += change[node] * booked_per_node_[node].made;
    booked.lost += change[node] * booked_per_node_[node].lost;
  }
}

/// Rows from outside in: what a block of them gets from the axial factor goes on inwards at once.
template <class Fill>
Booked Comb::sweep(std::span<double> x, const Fill& fill) {
  Booked booked;
  if (!bays_.empty()) {
    bays_.begin();
  }
  const auto& blocks = axial_.blocks();
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    const auto& block = blocks[b];
    fill.rows(block.first_row, block.rows);
    axial_.solve(block, x);
    for (const std::size_t f : end_faces_[b]) {
      const std::size_t cell = network_.grid().faces[f].cell;
      const double heat = s_ * network_.face_slope()[f] * x[cell] / axial_.weight(cell);
      if (!bays_.empty() && in_bay_[f]) {
        bays_.give(f, heat);
      } else {
        booked.lost += heat;
      }
    }
    if (windows_ != nullptr) {
      windows_->keep_axial(b, x);
    }
    radial_.gather(block.first_row, block.rows, x);
  }
  fill.conductor();
  radial_.gather_conductor(x);
  radial_.finish(x);
  book(x, booked);
  if (!bays_.empty()) {
    bays_.gather(x);
  }
  if (windows_ != nullptr) {
    const Booked more = windows_->correct(x);
    booked.made += more.made;
    booked.lost += more.lost;
  }
  if (!bays_.empty()) {
    close_bays(x, booked);
  }
  return booked;
}

void Comb::book(std::span<const double> x, Booked& booked) const {
  const auto& source = network_.source_slope();
  booked.made += s_ * kernels().sum_products(source.size(), source.data(), x.data());
  booked.lost += kernels().sum_products_at(radial_cells_.size(), radial_slopes_.data(),
                                           radial_cells_.data(), x.data());
}

Booked Comb::solve(std::span<double> rhs_then_x) {
  struct Filled {
    void rows(std::size_t, std::size_t) const {}
    void conductor() const {}
  };
  return sweep(rhs_then_x, Filled{});
}

Booked Comb::solve_stage(const HeatStage& stage) {
  struct FromNetwork {
    const HeatNetwork& network;
    const HeatStage& stage;
    void rows(std::size_t first, std::size_t count) const {
      network.fill_rows(first, count, stage);
    }
    void conductor() const { network.fill_conductor(stage); }
  };
  network_.fill_bodies(stage);
  return sweep({stage.out, network_.grid().cells}, FromNetwork{network_, stage});
}

}  // namespace ampstair::marching
