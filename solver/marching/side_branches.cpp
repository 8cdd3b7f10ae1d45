// SPDX-License-Identifier: MIT
#include "marching/side_branches.hpp"

#include <algorithm>

#include "diagnostics/contract.hpp"

namespace ampstair::marching {

SideBranches::SideBranches(const HeatNetwork& network) : network_(network) {
  const auto& rows = network.rows().rows();
  const auto row_of = [&](std::size_t cell) {
    const auto holds = [&](const Row& row) {
      return cell >= row.cell && cell < row.cell + row.stations;
    };
    return static_cast<std::size_t>(std::find_if(rows.begin(), rows.end(), holds) - rows.begin());
  };
  std::size_t cells = 0;
  for (const auto& body : network.grid().bodies) {
    if (body.branch) {
      diagnostics::expects(body.tied == 0 && body.ties.size() == 1, "a branch has one tie");
      branches_.push_back({&body, body.ties.front().cell, cells});
      cells += body.cells;
    }
  }
  inverse_.assign(cells, 0.0);
  lower_.assign(cells, 0.0);
  back_.assign(cells, 0.0);
  std::stable_sort(branches_.begin(), branches_.end(), [&](const Branch& a, const Branch& b) {
    return row_of(a.cell) < row_of(b.cell);
  });
  row_begin_.assign(rows.size() + 2, 0);
  for (const Branch& branch : branches_) {
    ++row_begin_[row_of(branch.cell) + 1];
  }
  for (std::size_t r = 1; r < row_begin_.size(); ++r) {
    row_begin_[r] += row_begin_[r - 1];
  }
}

void SideBranches::factor(double s, std::span<double> diagonal) {
  for (const Branch& branch : branches_) {
    factor(branch, s, diagonal);
  }
}

void SideBranches::factor(const Branch& branch, double s, std::span<double> diagonal) {
  const grid::SideBody& body = *branch.body;
  const auto slope = network_.tie_slope(body, body.ties.front());
  double behind = 0.0;  // what the cell behind leaves on a cell's diagonal
  for (std::size_t i = body.cells; i-- > 0;) {
    const std::size_t cell = body.first_cell + i;
    const double g =
        i > 0 ? network_.link_conductance(body.chain[i - 1], cell - 1, cell) : slope.conductance;
    const GasLinks::Lean lean = network_.gas_links().towards(cell);
    const double out = s * (g + lean.of_a);  // from the cell before to this one
    const double in = s * (g - lean.of_b);
    const double loss = i > 0 ? 0.0 : s * slope.head_loss;
    const double inverse = 1.0 / (diagonal[cell] + behind + in + loss);
    inverse_[branch.first + i] = inverse;
    lower_[branch.first + i] = in * inverse;
    back_[branch.first + i] = out * inverse;
    behind = out - out * in * inverse;
  }
  diagonal[branch.cell] += behind;
}

void SideBranches::gather(const Branch& branch, std::span<double> x) const {
  const double* lower = &lower_[branch.first];
  double* chain = &x[branch.body->first_cell];
  for (std::size_t i = branch.body->cells; i-- > 1;) {
    chain[i - 1] += lower[i] * chain[i];
  }
  x[branch.cell] += lower[0] * chain[0];
}

void SideBranches::spread(std::span<double> x) const {
  for (const Branch& branch : branches_) {
    const double* inverse = &inverse_[branch.first];
    const double* back = &back_[branch.first];
    double* chain = &x[branch.body->first_cell];
    double before = x[branch.cell];
    for (std::size_t i = 0; i < branch.body->cells; ++i) {
      chain[i] = chain[i] * inverse[i] + back[i] * before;
      before = chain[i];
    }
  }
}

}  // namespace ampstair::marching
