// SPDX-License-Identifier: MIT
#include "marching/gas_links.hpp"

#include <algorithm>
#include <numbers>
#include <utility>

#include "marching/faces.hpp"

namespace ampstair::marching {

namespace {

constexpr double most_downwards = 0.9;  // of the conductance

GasLinks::Lean within(GasLinks::Lean lean, double conductance) {
  return {std::max(lean.of_a, -most_downwards * conductance),
          std::min(lean.of_b, most_downwards * conductance)};
}

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
  for (Row& row : found_) {
    find(row, temperature, conductivity, inward);
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
    towards[0] = lean(tie.link, tie.cell, body.first_cell, temperature, conductivity);
    for (std::size_t i = 1; i < body.cells; ++i) {
      const std::size_t cell = body.first_cell + i;
      towards[i] = lean(body.chain[i - 1], cell - 1, cell, temperature, conductivity);
    }
  }
}

void GasLinks::find(Row& row, std::span<const double> temperature,
                    std::span<const double> conductivity, std::span<const double> inward) const {
  const auto& of = rows_.rows()[row.row];
  for (std::size_t j = 0; j < of.stations; ++j) {
    const std::size_t here = of.cell + j;
    const std::size_t below = of.below + j;
    const double warmer = temperature[here] - temperature[below];
    const double g = inward[here];
    const double per_path = g * g / (2.0 * std::numbers::pi * row.length[j]) * warmer;
    const auto with = [&](std::size_t cell, double path) {
      const double k = conductivity[cell];
      return per_path * path / (k * k) * slope(cell, temperature[cell]);
    };
    const Lean lean = within({with(here, row.path_here), with(below, row.path_below)}, g);
    row.of_here[j] = lean.of_a;
    row.of_below[j] = lean.of_b;
  }
}

GasLinks::Lean GasLinks::lean(const grid::Link& link, std::size_t a, std::size_t b,
                              std::span<const double> temperature,
                              std::span<const double> conductivity) const {
  const double g = conductance(link, conductivity[a], conductivity[b]);
  const double warmer = temperature[a] - temperature[b];
  const auto with = [&](std::size_t cell, double shape) {
    const double k = conductivity[cell];
    return g * g * shape / (k * k) * warmer * slope(cell, temperature[cell]);
  };
  return within({with(a, link.shape_a), with(b, link.shape_b)}, g);
}

}  // namespace ampstair::marching
