// SPDX-License-Identifier: MIT
#include "marching_dense.hpp"

#include <numbers>

namespace ampstair::tests {

namespace {

using marching::HeatNetwork;

/// Adds a conductance between two cells to a conduction matrix.
void join(Matrix& k, std::size_t a, std::size_t b, double conductance) {
  k(at(a), at(a)) += conductance;
  k(at(b), at(b)) += conductance;
  k(at(a), at(b)) -= conductance;
  k(at(b), at(a)) -= conductance;
}

/// Adds what makes a link from a to b lean.
void lean(Matrix& k, std::size_t a, std::size_t b, const marching::GasLinks::Lean& by) {
  k(at(a), at(a)) += by.of_a;
  k(at(b), at(a)) -= by.of_a;
  k(at(a), at(b)) += by.of_b;
  k(at(b), at(b)) -= by.of_b;
}

}  // namespace

Column column_at(const grid::Grid& g, std::size_t station) {
  std::vector<std::size_t> patches{g.top_patch[station]};
  while (patches.back() != 0) {
    patches.push_back(g.patches[patches.back()].parent);
  }
  Column column;
  for (auto p = patches.rbegin(); p != patches.rend(); ++p) {
    const auto& patch = g.patches[*p];
    for (std::size_t i = 0; i < patch.rows; ++i) {
      column.cells.push_back(patch.row(i) + station - patch.first_station);
      column.radius.push_back(patch.radius[i + 1]);
      column.to_end.push_back(patch.first_station + patch.stations - 1 - station);
      column.patch.push_back(*p);
    }
  }
  return column;
}

Dense::Dense(const HeatNetwork& n, double s, const std::vector<double>& slope,
             const marching::AxialFactor& taken) {
  const auto& g = n.grid();
  const auto size = at(g.cells);
  axial = comb = conduction_along = Matrix::Zero(size, size);
  capacity.resize(size);
  for (std::size_t c = 0; c < g.cells; ++c) {
    capacity(at(c)) = n.capacity()[c] / slope[c];
  }
  stiffened = capacity;
  add_patches(n, taken);
  add_bodies(n);
  add_leaning(n);
  for (std::size_t f = 0; f < g.faces.size(); ++f) {
    const auto c = at(g.faces[f].cell);
    (g.faces[f].axial ? axial : comb)(c, c) += n.face_slope()[f];
    conduction_along(c, c) += g.faces[f].axial ? n.face_slope()[f] : 0.0;
  }
  for (std::size_t j = 0; j < g.stations(); ++j) {
    comb(at(j), at(j)) -= n.source_slope()[j];
  }
  add_gas(n, s, taken);
}

Matrix Dense::exact(double s) const {
  return Matrix(capacity.asDiagonal()) + s * (conduction_along + comb);
}

Matrix Dense::product(double s) const {
  const Matrix first = Matrix::Identity(axial.rows(), axial.rows()) +
                       s * axial * stiffened.cwiseInverse().asDiagonal();
  return first * (Matrix(capacity.asDiagonal()) + s * comb);
}

void Dense::add_patches(const HeatNetwork& n, const marching::AxialFactor& taken) {
  const auto& g = n.grid();
  for (std::size_t p = 0; p < g.patches.size(); ++p) {
    const auto& patch = g.patches[p];
    for (std::size_t i = 0; i < patch.rows; ++i) {
      const std::size_t first = patch.row(i);
      for (std::size_t j = 0; j + 1 < patch.stations; ++j) {
        const double onward = n.onward()[first + j];
        join(p == 0 ? comb : conduction_along, first + j, first + j + 1, onward);
        if (p > 0 && taken.takes_link(p, j)) {
          join(axial, first + j, first + j + 1, onward);
        }
      }
      for (std::size_t j = 0; p > 0 && j < patch.stations; ++j) {
        join(comb, first + j, marching::row_below(g, patch, i) + j, n.inward()[first + j]);
      }
    }
  }
}

/// A gas layer's cells get 0.1 k (pi / width)^2 V s on top of their capacity, and lend their
/// conduction along the run to the rows on either side (where those go on, and not the
/// conductor).
void Dense::add_gas(const HeatNetwork& n, double s, const marching::AxialFactor& taken) {
  const auto& g = n.grid();
  for (std::size_t j = 0; j < g.stations(); ++j) {
    const Column column = column_at(g, j);
    for (std::size_t i = 1; i < column.cells.size(); ++i) {
      if (!n.nearly_massless(column.cells[i])) {
        continue;
      }
      std::size_t low = i;
      while (low > 1 && n.nearly_massless(column.cells[low - 1])) {
        --low;
      }
      std::size_t high = i;
      while (high + 1 < column.cells.size() && n.nearly_massless(column.cells[high + 1])) {
        ++high;
      }
      const std::size_t c = column.cells[i];
      const double wave = std::numbers::pi / (column.radius[high] - column.radius[low - 1]);
      stiffened(at(c)) += s * 0.1 * n.conductivity(c) * wave * wave * g.volume[c];
      const auto lend = [&](std::size_t k) {
        if (k > 0 && k < column.cells.size() && column.to_end[i] > 0 && column.to_end[k] > 0 &&
            taken.takes_link(column.patch[k], j - g.patches[column.patch[k]].first_station)) {
          join(axial, column.cells[k], column.cells[k] + 1, n.onward()[c]);
        }
      };
      lend(low - 1);
      lend(high + 1);
    }
  }
}

void Dense::add_bodies(const HeatNetwork& n) {
  for (const auto& body : n.grid().bodies) {
    for (std::size_t i = 0; i + 1 < body.cells; ++i) {
      const std::size_t c = body.first_cell + i;
      join(comb, c, c + 1, n.link_conductance(body.chain[i], c, c + 1));
    }
    const std::size_t head = body.first_cell + body.tied;
    for (const auto& tie : body.ties) {
      const auto slope = n.tie_slope(body, tie);
      join(comb, tie.cell, head, slope.conductance);
      comb(at(head), at(head)) += slope.head_loss;
    }
  }
}

void Dense::add_leaning(const HeatNetwork& n) {
  for (std::size_t r = 0; r < n.rows().rows().size(); ++r) {
    const auto& row = n.rows().rows()[r];
    const auto* gas = n.gas_links().row(r);
    for (std::size_t j = 0; gas != nullptr && j < row.stations; ++j) {
      lean(comb, row.cell + j, row.below + j, {gas->of_here[j], gas->of_below[j]});
    }
  }
  for (const auto& body : n.grid().bodies) {
    for (std::size_t c = body.first_cell; body.branch && c < body.first_cell + body.cells; ++c) {
      const std::size_t before = c > body.first_cell ? c - 1 : body.ties.front().cell;
      lean(comb, before, c, n.gas_links().towards(c));
    }
  }
}

}  // namespace ampstair::tests
