// SPDX-License-Identifier: MIT
#include "marching/network.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <variant>

#include "grid/column.hpp"
#include "heat/constants.hpp"

namespace ampstair::marching {

namespace {

constexpr double pi = std::numbers::pi;

}  // namespace

HeatNetwork::HeatNetwork(const grid::Grid& grid, const scenario::Scenario& scenario)
    : grid_(grid), scenario_(scenario), faces_(grid, scenario), covering_(grid) {
  describe_media(scenario);
  measure_cells();
  lay_rows();
  lay_gas_links();
  lay_sites();
  source_slope_.assign(grid.stations(), 0.0);
  // A joint is metal too: its resistance, given at 20 degC, rises with the wire's.
  const double cold = media_[0].resistivity.at(heat::zero_celsius + 20.0);
  for (std::size_t j = 0; j < grid.stations(); ++j) {
    metres_per_area_.push_back(length_[j] / grid.conductor_area + grid.joint_resistance[j] / cold);
  }
  lay_joint_heat();
  find_what_is_read();
}

void HeatNetwork::lay_joint_heat() {
  std::vector<double> heat;
  for (std::size_t j = 0; j < grid_.stations(); ++j) {
    const auto& piece = scenario_.run[grid_.station_piece[j]];
    const auto* splice = std::get_if<scenario::Splice>(&piece.kind);
    heat.push_back(splice != nullptr ? splice->heat * length_[j] / piece.length : 0.0);
    whole_joint_heat_ += heat.back();
  }
  if (whole_joint_heat_ > 0.0) {
    joint_heat_ = std::move(heat);
  }
}

void HeatNetwork::measure_cells() {
  capacity_.assign(grid_.cells, 1.0);
  conductivity_.assign(grid_.cells, 0.0);
  inward_.assign(grid_.cells, 0.0);
  onward_.assign(grid_.cells, 0.0);
  massless_.assign(grid_.cells, false);
  std::size_t longest = 0;
  for (std::size_t c = 0; c < grid_.cells; ++c) {
    const Medium& medium = media_[grid_.medium[c]];
    conductivity_[c] = medium.fixed_conductivity;
    if (grid_.volume[c] > 0.0) {
      capacity_[c] = medium.heat_per_volume * grid_.volume[c];
      massless_[c] = medium.nearly_massless;
      if (medium.wood) {
        woods_.add(c, medium.wood, grid_.cells);
      } else if (medium.varies) {
        if (varying_.empty() || varying_.back().first + varying_.back().count != c ||
            varying_.back().medium != grid_.medium[c]) {
          varying_.push_back({c, 0, grid_.medium[c]});
        }
        ++varying_.back().count;
        longest = std::max(longest, varying_.back().count);
      }
      if (medium.enthalpy) {
        enthalpy_cells_.push_back(c);
      }
      if (medium.breaks_down != nullptr) {
        const auto& material = *medium.breaks_down;
        reactions_.add(c, *material.breakdown, material.density * grid_.volume[c],
                       medium.heat_per_volume / material.density);
        reaction_heat_.resize(grid_.cells, 0.0);
      }
    }
  }
  lay_enthalpy_stretches();
  ones_.assign(longest, 1.0);
  for (const grid::Bay& bay : grid_.bays) {
    capacity_[bay.air_cell] = bay.air_capacity;
    capacity_[bay.walls_cell] = bay.walls_capacity;
  }
}

/// Conductances of all links, and the rows that are made of them.
void HeatNetwork::lay_rows() {
  for (std::size_t j = 0; j < grid_.stations(); ++j) {
    length_.push_back(grid_.station_face[j + 1] - grid_.station_face[j]);
  }
  for (std::size_t p = 0; p < grid_.patches.size(); ++p) {
    const grid::Patch& patch = grid_.patches[p];
    for (std::size_t i = 0; i < patch.rows; ++i) {
      update_row(patch, i);
      const auto varies = [&](std::size_t row, std::size_t count) {
        return std::any_of(grid_.medium.begin() + static_cast<std::ptrdiff_t>(row),
                           grid_.medium.begin() + static_cast<std::ptrdiff_t>(row + count),
                           [&](std::size_t m) { return media_[m].varies; });
      };
      if (varies(patch.row(i), patch.stations) ||
          (p > 0 && varies(row_below(grid_, patch, i), patch.stations))) {
        varying_rows_.push_back({p, i});
      }
    }
  }
  std::vector<FixedMedium> fixed;
  for (const Medium& medium : media_) {
    const bool changes = medium.varies || medium.enthalpy;
    fixed.push_back({changes ? 0.0 : medium.fixed_conductivity, medium.heat_per_volume});
  }
  rows_ = std::make_unique<HeatRows>(grid_, fixed, CellCoefficients{onward_, inward_, capacity_});
}

void HeatNetwork::lay_sites() {
  const std::size_t conductor = rows_->rows().size();
  std::vector<std::size_t> group_of(grid_.cells, conductor);
  for (std::size_t r = 0; r < conductor; ++r) {
    const Row& row = rows_->rows()[r];
    std::fill_n(group_of.begin() + static_cast<std::ptrdiff_t>(row.cell), row.stations, r);
  }
  first_body_cell_ = grid_.cells;
  for (const auto& bay : grid_.bays) {
    first_body_cell_ = std::min(first_body_cell_, bay.air_cell);
  }
  std::size_t ties = 0;
  for (const auto& body : grid_.bodies) {
    first_body_cell_ = std::min(first_body_cell_, body.first_cell);
    for (const auto& tie : body.ties) {
      sites_.push_back({tie.cell, ties++, 1, true});
    }
  }
  for (std::size_t f = 0; f < grid_.faces.size(); ++f) {
    if (grid_.faces[f].cell < first_body_cell_) {
      sites_.push_back({grid_.faces[f].cell, f, 1, false});
    } else {
      body_faces_.push_back(f);
    }
  }
  group_sites(group_of, conductor + 1);
  tie_heat_.assign(ties, 0.0);
  body_heat_.assign(grid_.cells - first_body_cell_, 0.0);
  made_.assign(grid_.stations(), 0.0);
}

/// Groups by rows, and joins what follows each other in one.
void HeatNetwork::group_sites(const std::vector<std::size_t>& group_of, std::size_t groups) {
  const auto group = [&](const Sites& of) { return group_of[of.cell]; };
  std::stable_sort(sites_.begin(), sites_.end(),
                   [&](const Sites& a, const Sites& b) { return group(a) < group(b); });
  const auto goes_on = [&](const Sites& last, const Sites& next) {
    return group(last) == group(next) && last.ties == next.ties &&
           last.cell + last.count == next.cell && last.index + last.count == next.index;
  };
  std::vector<Sites> joined;
  for (const Sites& one : sites_) {
    if (!joined.empty() && goes_on(joined.back(), one)) {
      ++joined.back().count;
    } else {
      joined.push_back(one);
    }
  }
  sites_ = std::move(joined);
  for (std::size_t g = 0; g <= groups; ++g) {
    const auto before = [&](const Sites& of) { return group(of) < g; };
    group_begin_.push_back(static_cast<std::size_t>(
        std::partition_point(sites_.begin(), sites_.end(), before) - sites_.begin()));
  }
}

void HeatNetwork::find_what_is_read() {
  std::vector<bool> read(grid_.cells, false);
  std::vector<bool> whole(grid_.cells, false);  // its row is read as a whole
  for (const Sites& of : sites_) {
    std::fill_n(read.begin() + static_cast<std::ptrdiff_t>(of.cell), of.count, true);
  }
  for (const std::size_t c : enthalpy_cells_) {
    whole[c] = true;
  }
  for (std::size_t k = 0; k < reactions_.size(); ++k) {
    whole[reactions_.cell(k)] = true;
  }
  for (std::size_t c = 0; c < first_body_cell_; ++c) {
    whole[c] = whole[c] || (grid_.volume[c] > 0.0 && media_[grid_.medium[c]].varies);
  }
  const auto any = [](const std::vector<bool>& of, std::size_t first, std::size_t count) {
    const auto begin = of.begin() + static_cast<std::ptrdiff_t>(first);
    const auto end = begin + static_cast<std::ptrdiff_t>(count);
    return std::find(begin, end, true) != end;
  };
  std::vector<bool> late;
  rows_read_.push_back({0, grid_.patches.front().stride});
  for (const Row& row : rows_->rows()) {
    late.push_back(!row.top && !any(whole, row.cell, row.stations));
    if (!late.back()) {
      rows_read_.push_back({row.cell, row.stride});
      continue;
    }
    for (std::size_t c = row.cell; c < row.cell + row.stations; ++c) {
      if (read[c]) {
        cells_read_.push_back(c);
      }
    }
  }
  const grid::Patch& last = grid_.patches.back();
  const std::size_t behind = last.row(last.rows);  // side bodies, bays and what pads the arrays
  rows_read_.push_back({behind, grid_.cells - behind});
  rows_->sum_on_the_way(late);
}

std::vector<double> HeatNetwork::uniform(double kelvin) const {
  std::vector<double> u(grid_.cells, kelvin);
  for (const std::size_t c : enthalpy_cells_) {
    u[c] = media_[grid_.medium[c]].enthalpy->variable(kelvin);
  }
  return u;
}

void HeatNetwork::temperatures(std::span<const double> u, std::span<double> temperature,
                               std::span<double> slope) const {
  if (u.data() != temperature.data()) {
    std::copy(u.begin(), u.end(), temperature.begin());
  }
  for (const Varying& same : enthalpy_stretches_) {
    const auto& knots = media_[same.medium].enthalpy->knots();
    kernels().from_enthalpy(same.count, knots.data(), knots.size(), &temperature[same.first],
                            &slope[same.first]);
  }
  woods_.temperatures(0, grid_.cells, temperature, slope);
}

void HeatNetwork::to_temperatures(std::size_t first, std::size_t count,
                                  std::span<double> u_then_temperature) const {
  const std::size_t end = first + count;
  for (const Varying& same : enthalpy_stretches_) {
    const std::size_t from = std::max(first, same.first);
    const std::size_t to = std::min(end, same.first + same.count);
    if (from < to) {
      const auto& knots = media_[same.medium].enthalpy->knots();
      kernels().from_enthalpy(to - from, knots.data(), knots.size(), &u_then_temperature[from],
                              nullptr);
    }
  }
  woods_.temperatures(first, end, u_then_temperature, {});
}

double HeatNetwork::variable_of(std::size_t cell, double kelvin) const {
  const auto& enthalpy = media_[grid_.medium[cell]].enthalpy;
  return enthalpy ? enthalpy->variable(kelvin) : kelvin;
}

double HeatNetwork::temperature_of(std::size_t cell, double u) const {
  return media_[grid_.medium[cell]].enthalpy ? state_of(cell, u).temperature : u;
}

double HeatNetwork::slope_of(std::size_t cell, double u) const {
  const auto& enthalpy = media_[grid_.medium[cell]].enthalpy;
  return enthalpy ? enthalpy->at(u).slope : 1.0;
}

// ---- conduction -------------------------------------------------------------------------------

void HeatNetwork::update_row(const grid::Patch& patch, std::size_t row) {
  const std::size_t first = patch.row(row);
  const double* length = &length_[patch.first_station];
  const double ring =
      pi * (patch.radius[row + 1] * patch.radius[row + 1] - patch.radius[row] * patch.radius[row]);
  kernels().link_along(patch.stations - 1, ring, length, &conductivity_[first], &onward_[first]);
  if (&patch == &grid_.patches.front()) {
    return;
  }
  const grid::Patch& host = row > 0 ? patch : grid_.patches[patch.parent];
  kernels().link_inward(
      patch.stations, outer_path(host, row > 0 ? row - 1 : host.rows - 1), inner_path(patch, row),
      length, &conductivity_[row_below(grid_, patch, row)], &conductivity_[first], &inward_[first]);
}

void HeatNetwork::update_conductivities(std::span<const double> temperature) {
  for (const Varying& varying : varying_) {
    media_[varying.medium].conductivity.at(
        temperature.subspan(varying.first, varying.count), std::span(ones_).first(varying.count),
        std::span(conductivity_).subspan(varying.first, varying.count));
  }
  woods_.conductivities(temperature, conductivity_);
  reactions_.mix_conductivities(conductivity_);
  covering_.conduct(conductivity_);
  for (const RowRef& row : varying_rows_) {
    update_row(grid_.patches[row.patch], row.row);
  }
  covering_.part(onward_);
}

// ---- rows ------------------------------------------------------------------------------------

Totals HeatNetwork::evaluate(std::span<const double> temperature, bool linearise) {
  update_conductivities(temperature);
  if (linearise) {
    gas_links_->find(temperature, conductivity_, inward_);
  }
  Totals totals;
  totals.lost = faces_.exchange(temperature, conductivity_, linearise);
  conduct_bodies(temperature);
  totals.lost += warm_bays(temperature);
  totals.made = make(temperature, linearise);
  return totals;
}

double HeatNetwork::react(std::size_t stage, double s, std::span<const double> temperature) {
  if (reactions_.empty()) {
    return 0.0;
  }
  const double all = reactions_.solve_stage(stage, s, temperature);
  for (std::size_t k = 0; k < reactions_.size(); ++k) {
    reaction_heat_[reactions_.cell(k)] = reactions_.heat()[k];
  }
  return all;
}

void HeatNetwork::add_sites(std::size_t first_group, std::size_t count,
                            const HeatStage& stage) const {
  const std::size_t end = group_begin_[first_group + count];
  const double* heat[2] = {faces_.heat().data(), tie_heat_.data()};
  for (std::size_t k = group_begin_[first_group]; k < end; ++k) {
    const Sites& of = sites_[k];
    const double* const given = heat[of.ties ? 1 : 0] + of.index;
    double* const out = stage.out + of.cell;
    for (std::size_t i = 0; i < of.count; ++i) {
      out[i] -= stage.s * given[i];
    }
  }
}

void HeatNetwork::fill_rows(std::size_t first_row, std::size_t count,
                            const HeatStage& stage) const {
  rows_->fill(first_row, count, stage);
  add_sites(first_row, count, stage);
  for (std::size_t r = first_row; r < first_row + count; ++r) {
    add_reaction(rows_->rows()[r].cell, rows_->rows()[r].stations, stage);
  }
}

void HeatNetwork::fill_conductor(const HeatStage& stage) const {
  rows_->fill_conductor(stage);
  add_sites(rows_->rows().size(), 1, stage);
  add_reaction(0, grid_.stations(), stage);
  for (std::size_t j = 0; j < made_.size(); ++j) {
    stage.out[j] += stage.s * made_[j];
  }
}

void HeatNetwork::fill_bodies(const HeatStage& stage) const {
  for (std::size_t c = first_body_cell_; c < grid_.cells; ++c) {
    double stages = 0.0;
    for (std::size_t k = 0; k < stage.count; ++k) {
      stages += stage.weight[k] * stage.u.u[k][c];
    }
    stage.out[c] = stage.s * body_heat_[c - first_body_cell_] + capacity_[c] * stages;
  }
  add_reaction(first_body_cell_, grid_.cells - first_body_cell_, stage);
}

Totals HeatNetwork::rates(std::span<const double> temperature, std::span<double> net,
                          bool linearise) {
  const Totals totals = evaluate(temperature, linearise);
  std::fill(reaction_heat_.begin(), reaction_heat_.end(), 0.0);
  HeatStage plain;
  plain.t = const_cast<double*>(temperature.data());  // nothing is summed into it
  plain.out = net.data();
  fill_rows(0, rows_->rows().size(), plain);
  fill_conductor(plain);
  fill_bodies(plain);
  return totals;
}

}  // namespace ampstair::marching
