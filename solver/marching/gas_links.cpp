// SPDX-License-Identifier: MIT
#include "marching/gas_links.hpp"

#include <algorithm>
#include <numbers>
#include <utility>

#include "marching/faces.hpp"

namespace ampstair::marching {

namespace {

constexpr double most_downwards = 0.9;  // of the conductance
constexpr double two_pi = 2.0 * std::numbers::pi;

}  // namespace

GasLinks::GasLinks(const grid::Grid& grid, const HeatRows& rows, std::vector<const Lookup*> gas)
    : grid_(grid), rows_(rows), gas_(std::move(gas)) {
  index_.assign(rows.rows().size(), grid::Grid::npos);
  const auto is_gas = [&](std::size_t cell) { return gas_[grid.medium[cell]] != nullptr; };
  for (std::size_t r = 0; r < rows.rows().size(); ++r) {
    const auto& row = rows.rows()[r];
    for (std::size_t j = 0; j < row.stations; ++j) {
      if (is_gas(row.cell + j) || is_gas(row.below + j)) {
        add_row(r);
        break;
      }
    }
  }
  first_body_cell_ = grid.cells;
  bool any = false;
  for (const auto& body : grid.bodies) {
    first_body_cell_ = std::min(first_body_cell_, body.first_cell);
    for (std::size_t c = body.first_cell; body.branch && c < body.first_cell + body.cells; ++c) {
      any = any || is_gas(c);
    }
  }
  if (any) {
    branches_.resize(grid.cells - first_body_cell_);
  }
}

void GasLinks::add_row(std::size_t index) {
  const auto& row = rows_.rows()[index];
  const auto& patch = grid_.patches[row.patch];
  const std::size_t i = (row.cell - patch.offset) / patch.stride;
  const auto& host = i > 0 ? patch : grid_.patches[patch.parent];
  index_[index] = found_.size();
  found_.push_back({index, inner_path(patch, i), outer_path(host, (i > 0 ? i : host.rows) - 1),
                    rows_.lengths(row.patch), Cells(row.stride, 0.0), Cells(row.stride, 0.0)});
}

const GasLinks::Row* GasLinks::row(std::size_t index) const {
  return index_[index] == grid::Grid::npos ? nullptr : &found_[index_[index]];
}

bool GasLinks::leans(std::size_t cell) const {
  return std::any_of(found_.begin(), found_.end(), [&](const Row& found) {
    const auto& row = rows_.rows()[found.row];
    return cell >= row.cell && cell < row.cell + row.stations;
  });
}

/// dk/dT, W/m/K2; 0 for what is no gas.
double GasLinks::slope(std::size_t cell, double kelvin) const {
  const Lookup* gas = gas_[grid_.medium[cell]];
  return gas == nullptr ? 0.0 : gas->slope_at(kelvin);
}

void GasLinks::find(std::span<const double> temperature, std::span<const double> conductivity,
                    std::span<const double> inward) {
  const State state{temperature, conductivity};
  for (Row& row : found_) {
    find(row, state, inward);
  }
  if (branches_.empty()) {
    return;
  }
  for (const auto& body : grid_.bodies) {
    if (!body.branch) {
      continue;
    }
    Lean* towards = &branches_[body.first_cell - first_body_cell_];
    const auto& tie = body.ties.front();
    towards[0] = lean(tie.link, tie.cell, body.first_cell, state);
    for (std::size_t i = 1; i < body.cells; ++i) {
      const std::size_t cell = body.first_cell + i;
      towards[i] = lean(body.chain[i - 1], cell - 1, cell, state);
    }
  }
}

void GasLinks::find(Row& row, const State& state, std::span<const double> inward) const {
  const auto& of = rows_.rows()[row.row];
  for (std::size_t j = 0; j < of.stations; ++j) {
    const double per_path = 1.0 / (two_pi * row.length[j]);
    const Lean lean = this->lean(inward[of.cell + j], {of.cell + j, per_path * row.path_here},
                                 {of.below + j, per_path * row.path_below}, state);
    row.of_here[j] = lean.of_a;
    row.of_below[j] = lean.of_b;
  }
}

GasLinks::Lean GasLinks::lean(const grid::Link& link, std::size_t a, std::size_t b,
                              const State& state) const {
  return lean(conductance(link, state.conductivity[a], state.conductivity[b]), {a, link.shape_a},
              {b, link.shape_b}, state);
}

GasLinks::Lean GasLinks::lean(double conductance, const End& a, const End& b,
                              const State& state) const {
  const double warmer = state.temperature[a.cell] - state.temperature[b.cell];
  const auto with = [&](const End& end) {
    const double part = conductance / state.conductivity[end.cell];
    return part * part * end.shape * warmer * slope(end.cell, state.temperature[end.cell]);
  };
  return {std::max(with(a), -most_downwards * conductance),
          std::min(with(b), most_downwards * conductance)};
}

}  // namespace ampstair::marching
