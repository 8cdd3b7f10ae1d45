// SPDX-License-Identifier: MIT
#include "marching/reacting_cells.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "heat/breakdown.hpp"

namespace ampstair::marching {

namespace {

constexpr const Scheme& scheme = ros34pw2;
constexpr double negligible = 1e-10;    // 1/s: 0.3 % in a year
constexpr double least_weight = 100.0;  // K, of a reaction that makes little heat or none

}  // namespace

void ReactingCells::add(std::size_t cell, const materials::Breakdown& breakdown, double mass,
                        double heat_capacity) {
  Cell here{};
  here.cell = cell;
  here.breakdown = breakdown;
  here.heat = breakdown.heat * mass;
  here.hardly = heat::temperature_of_rate(breakdown, negligible);
  here.weight = std::max(std::abs(breakdown.heat) / heat_capacity, least_weight);
  here.capacity = mass * heat_capacity;
  if (breakdown.mass_lost > 0.0) {
    losing_.push_back(cells_.size());
  }
  cells_.push_back(here);
  heat_.push_back(0.0);
}

void ReactingCells::begin() {
  for (Cell& here : cells_) {
    here.converted = here.of_stage = 0.0;
    here.stages = {};
  }
}

void ReactingCells::leave(std::size_t cell) {
  for (Cell& here : cells_) {
    if (here.cell == cell) {
      here.hardly = std::numeric_limits<double>::infinity();
    }
  }
  std::erase_if(losing_, [&](std::size_t k) { return cells_[k].cell == cell; });
}

double ReactingCells::capacity(std::size_t k) const {
  return cells_[k].capacity * (1.0 - cells_[k].breakdown.mass_lost * converted(k));
}

double ReactingCells::shed(std::size_t k) const {
  const double lost = cells_[k].breakdown.mass_lost;
  const double now = converted(k);
  return lost * (converted(k, scheme.m) - now) / (1.0 - lost * now);
}

void ReactingCells::begin_stage(std::size_t stage) {
  for (Cell& here : cells_) {
    here.of_stage = here.converted;
    for (std::size_t j = 0; j < stage; ++j) {
      here.of_stage += scheme.a[stage][j] * here.stages[j];
    }
  }
}

void ReactingCells::mix_conductivities(std::span<double> conductivity) const {
  for (const Cell& here : cells_) {
    if (here.breakdown.conductivity_after) {
      conductivity[here.cell] =
          std::lerp(conductivity[here.cell], *here.breakdown.conductivity_after,
                    std::clamp(here.of_stage, 0.0, 1.0));
    }
  }
}

double ReactingCells::solve_stage(std::size_t stage, double s,
                                  std::span<const double> temperature) {
  double all = 0.0;
  for (std::size_t k = 0; k < cells_.size(); ++k) {
    Cell& here = cells_[k];
    const double kelvin = temperature[here.cell];
    const double rate = kelvin > here.hardly ? heat::rate_constant(here.breakdown, kelvin) : 0.0;
    if (stage == 0) {
      here.rate = rate;
    }
    double before = 0.0;  // gamma sum c_ij A_j
    for (std::size_t j = 0; j < stage; ++j) {
      before += scheme.gamma * scheme.c[stage][j] * here.stages[j];
    }
    here.stages[stage] = (s * rate * (1.0 - here.of_stage) + before) / (1.0 + s * here.rate);
    heat_[k] = here.heat * (here.stages[stage] - before);
    all += heat_[k];
  }
  return all;
}

double ReactingCells::error() const {
  double most = 0.0;
  for (const Cell& here : cells_) {
    double sum = 0.0;
    for (std::size_t i = 0; i < Scheme::stages; ++i) {
      sum += scheme.e[i] * here.stages[i];
    }
    most = std::max(most, here.weight * std::abs(sum));
  }
  return most;
}

double ReactingCells::power(std::size_t k, double kelvin) const {
  const Cell& here = cells_[k];
  return kelvin > here.hardly
             ? here.heat * heat::rate_constant(here.breakdown, kelvin) * (1.0 - here.converted)
             : 0.0;
}

double ReactingCells::converted(std::size_t k, const Scheme::Vector& weights) const {
  double sum = cells_[k].converted;
  for (std::size_t i = 0; i < Scheme::stages; ++i) {
    sum += weights[i] * cells_[k].stages[i];
  }
  return std::clamp(sum, 0.0, 1.0);
}

void ReactingCells::advance(const Scheme::Vector& weights) {
  for (Cell& here : cells_) {
    for (std::size_t i = 0; i < Scheme::stages; ++i) {
      here.converted += weights[i] * here.stages[i];
    }
    here.of_stage = here.converted;
  }
}

}  // namespace ampstair::marching
