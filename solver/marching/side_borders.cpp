// SPDX-License-Identifier: MIT
#include "marching/side_borders.hpp"

#include <algorithm>

#include "grid/column.hpp"

namespace ampstair::marching {

namespace {

Eigen::Index at(std::size_t i) {
  return static_cast<Eigen::Index>(i);
}

}  // namespace

SideBorders::SideBorders(const HeatNetwork& network) : network_(network) {
  const auto& grid = network.grid();
  for (const auto& body : grid.bodies) {
    if (body.branch) {
      continue;  // SideBranches has it
    }
    Border border;
    border.body = &body;
    border.chain_inverse.assign(body.cells, 0.0);
    border.chain_lower.assign(body.cells, 0.0);
    border.influence.assign(grid.stations(), 0.0);
    for (const auto& tie : body.ties) {
      Tie& added = border.ties.emplace_back();
      added.cell = tie.cell;
      added.station = tie.station;
      added.column = column_below(tie);
    }
    borders_.push_back(std::move(border));
  }
  const Eigen::Index n = at(borders_.size());
  schur_.setZero(n, n);
  heads_.setZero(n);
  solved_.setZero(n);
}

/// The column's cells outside the conductor; none for a tie to the conductor itself.
std::vector<SideBorders::ColumnCell> SideBorders::column_below(
    const grid::SideBody::Tie& tie) const {
  std::vector<ColumnCell> column;
  if (tie.cell != tie.station) {
    for (const auto& c : grid::column_at(network_.grid(), tie.station)) {
      if (c.cell != tie.station) {
        column.push_back({c.cell, network_.gas_links().leans(c.cell)});
      }
    }
  }
  return column;
}

void SideBorders::add_ties(double s, std::span<double> diagonal) {
  for (std::size_t b = 0; b < borders_.size(); ++b) {
    const grid::SideBody& body = *borders_[b].body;
    const std::size_t head = body.first_cell + body.tied;
    for (std::size_t k = 0; k < body.ties.size(); ++k) {
      Tie& tie = borders_[b].ties[k];
      const auto slope = network_.tie_slope(body, body.ties[k]);
      tie.conductance = s * slope.conductance;
      diagonal[tie.cell] += tie.conductance;
      diagonal[head] += tie.conductance + s * slope.head_loss;
    }
  }
}

/// Chain cells before the tied one are eliminated forwards, those behind it backwards.
/// @return the head's reduced diagonal
double SideBorders::factor_chain(double s, std::size_t b, std::span<const double> diagonal) {
  const grid::SideBody& body = *borders_[b].body;
  Border& border = borders_[b];
  std::vector<double>& pivot = border.chain_inverse;
  std::copy_n(diagonal.begin() + static_cast<std::ptrdiff_t>(body.first_cell), body.cells,
              pivot.begin());
  const auto link = [&](std::size_t i) {
    const std::size_t cell = body.first_cell + i;
    return s * network_.link_conductance(body.chain[i], cell, cell + 1);
  };
  const auto eliminate = [&](std::size_t from, std::size_t to, double g) {
    pivot[from] = 1.0 / (pivot[from] + g);
    border.chain_lower[from] = g * pivot[from];
    pivot[to] += g - g * border.chain_lower[from];
  };
  for (std::size_t i = 0; i < body.tied; ++i) {
    eliminate(i, i + 1, link(i));
  }
  for (std::size_t i = body.cells; i-- > body.tied + 1;) {
    eliminate(i, i - 1, link(i - 1));
  }
  return pivot[body.tied];
}

/// A head reaches the conductor's line through the columns it is tied to, by
/// s G * product of the column's lower factors, and the line reaches it through those back; its own
/// effect on itself through the column is returned.
double SideBorders::reach_columns(std::size_t b, const ReducedRun& run) {
  Border& border = borders_[b];
  std::fill(border.influence.begin(), border.influence.end(), 0.0);
  double own = 0.0;
  for (Tie& tie : border.ties) {
    double reach = tie.conductance;
    double back = tie.conductance;
    for (std::size_t k = tie.column.size(); k-- > 0;) {
      own += reach * back * run.inverse[tie.column[k].cell];
      reach *= run.lower[tie.column[k].cell];
      back *= tie.column[k].back(run);
    }
    tie.reach = reach;
    tie.back = back;
    border.influence[tie.station] += reach;
  }
  return own;
}

void SideBorders::factor_schur() {
  const std::size_t n = borders_.size();
  for (std::size_t a = 0; a < n; ++a) {
    for (std::size_t b = 0; b < n; ++b) {
      double through_line = 0.0;
      for (const Tie& tie : borders_[a].ties) {
        through_line += tie.back * borders_[b].influence[tie.station];
      }
      const double own = a == b ? schur_(at(a), at(a)) : 0.0;
      schur_(at(a), at(b)) = own - through_line;
    }
  }
  if (n > 0) {
    lu_.compute(schur_);
  }
}

void SideBorders::gather(std::span<double> x, const ReducedRun& run) const {
  for (std::size_t b = 0; b < borders_.size(); ++b) {
    const grid::SideBody& body = *borders_[b].body;
    const Border& border = borders_[b];
    double* chain = x.data() + body.first_cell;
    for (std::size_t i = 0; i < body.tied; ++i) {
      chain[i + 1] += border.chain_lower[i] * chain[i];
    }
    for (std::size_t i = body.cells; i-- > body.tied + 1;) {
      chain[i - 1] += border.chain_lower[i] * chain[i];
    }
    double residual = chain[body.tied];
    for (const Tie& tie : border.ties) {
      double value = 0.0;
      for (const ColumnCell& c : tie.column) {
        value = x[c.cell] * run.inverse[c.cell] + c.back(run) * value;
      }
      residual += tie.conductance * value;
    }
    heads_(at(b)) = residual;
  }
}

void SideBorders::spread(std::span<double> x, const ReducedRun& run) const {
  for (std::size_t b = 0; b < borders_.size(); ++b) {
    for (const Tie& tie : borders_[b].ties) {
      heads_(at(b)) += tie.back * x[tie.station];
    }
  }
  solved_.noalias() = lu_.solve(heads_);
  for (std::size_t b = 0; b < borders_.size(); ++b) {
    const double head = solved_(at(b));
    const Border& border = borders_[b];
    for (std::size_t j = 0; j < border.influence.size(); ++j) {
      x[j] += border.influence[j] * head;
    }
    for (const Tie& tie : border.ties) {  // the columns' own answer, for the outward sweep
      double reach = tie.conductance * head;
      for (std::size_t k = tie.column.size(); k-- > 0;) {
        x[tie.column[k].cell] += reach;
        reach *= run.lower[tie.column[k].cell];
      }
    }
    back_along_chain(b, head, x);
  }
}

void SideBorders::back_along_chain(std::size_t b, double head, std::span<double> x) const {
  const grid::SideBody& body = *borders_[b].body;
  const Border& border = borders_[b];
  double* chain = x.data() + body.first_cell;
  chain[body.tied] = head;
  for (std::size_t i = body.tied; i-- > 0;) {
    chain[i] = chain[i] * border.chain_inverse[i] + border.chain_lower[i] * chain[i + 1];
  }
  for (std::size_t i = body.tied + 1; i < body.cells; ++i) {
    chain[i] = chain[i] * border.chain_inverse[i] + border.chain_lower[i] * chain[i - 1];
  }
}

}  // namespace ampstair::marching
