// SPDX-License-Identifier: MIT
#include "marching/stepper.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ampstair::marching {

namespace {

constexpr const Scheme& scheme = ros34pw2;
// The new state is the last stage's with its own U on top.
static_assert(scheme.m == Scheme::Vector{scheme.a[3][0], scheme.a[3][1], scheme.a[3][2], 1.0});

/// Weights of the stages at a part of the step.
Scheme::Vector weights_at(double theta) {
  Scheme::Vector weights = scheme.m;
  if (theta != 1.0) {
    for (std::size_t i = 0; i < Scheme::stages; ++i) {
      const auto& d = scheme.d[i];
      weights[i] = theta * (d[0] + theta * (d[1] + theta * d[2]));
    }
  }
  return weights;
}

}  // namespace

Stepper::Stepper(HeatNetwork& network, double start)
    : network_(network), comb_(network), cells_(network.grid().cells) {
  for (Cells* v : {&temperature_, &net_, &stage_, &next_}) {
    v->assign(cells_, 0.0);
  }
  slope_.assign(cells_, 1.0);
  holds_heat_.assign(cells_, 1.0);
  for (std::size_t c = 0; c < cells_; ++c) {
    holds_heat_[c] = network.nearly_massless(c) ? 0.0 : 1.0;
  }
  if (const auto& corners = comb_.thorough_windows(); !corners.empty()) {
    at_corner_ = corners.cells();
    // A sweep of all windows costs half of what else is done for a cell, and steps can be longer by
    // the third root of the error.
    const double cost =
        1.0 + 0.5 * static_cast<double>(corners.work()) / static_cast<double>(cells_);
    worth_while_ = cost * cost * cost;
  }
  line_.assign(network.grid().stations(), 0.0);
  for (Cells& u : stages_) {
    u.assign(cells_, 0.0);
  }
  begin(start);
}

void Stepper::begin(double start) {
  const auto uniform = network_.uniform(start);
  u_.assign(uniform.begin(), uniform.end());
  start_ = u_;
  ledger_ = {};
  network_.begin_past(u_);
  network_.reactions().begin();
  if (!network_.reactions().losing().empty() || !network_.covering().sites().empty()) {
    comb_.take_capacities();
  }
}

double Stepper::first_length(double begin, double tolerance) {
  corners_ = always_.value_or(Comb::Corners::brief);
  network_.set_time(begin);
  network_.temperatures(u_, temperature_, slope_);
  network_.rates(temperature_, net_, false);
  constexpr double probe = 1e-3;  // s
  const auto capacity = network_.capacity();
  loops_.explicit_step(cells_, u_.data(), probe, net_.data(), capacity.data(), holds_heat_.data(),
                       stage_.data());
  network_.to_temperatures(0, cells_, stage_);
  network_.set_time(begin + probe);
  network_.rates(stage_, next_, false);
  double curvature = 0.0;  // K/s2
  for (std::size_t j = 0; j < network_.grid().stations(); ++j) {
    curvature = std::max(curvature, std::abs(next_[j] - net_[j]) / (capacity[j] * probe));
  }
  // Found by trial: with 1 the steps after it only make up for what it gave away; with 3 a first
  // step has to be tried again, once to three times, where 0.01 K or less is asked.
  constexpr double stretch = 3.0;
  return stretch * 2.0 * std::sqrt(2.0 * tolerance / std::max(curvature, 1e-12));
}

double Stepper::attempt(double begin, double length) {
  const double s = scheme.gamma * length;
  for (std::size_t i = 0; i < Scheme::stages; ++i) {
    Cells& temperature = stage_temperature(i);
    network_.set_time(begin + scheme.alpha[i] * length, scheme.lead[i] * length);
    network_.reactions().begin_stage(i);
    const Totals totals = network_.evaluate(temperature, i == 0);
    if (i == 0) {
      comb_.factor(s, slope_, corners_);
    }
    Scheme::Vector weight = scheme.c[i];
    for (double& w : weight) {
      w *= scheme.gamma;
    }
    Cells& u = stages_[i];
    const double reacted = network_.react(i, s, temperature);
    Booked booked = comb_.solve_stage({s, i, weight.data(), stage_view(), temperature.data(),
                                       u.data(), u_.data(), scheme.a[i].data()});
    booked.made += reacted;
    keep_ledger(i, s, totals, booked);
    for (const std::size_t c : network_.enthalpy_cells()) {
      u[c] /= slope_[c];
    }
  }
  const double* slope = network_.enthalpy_cells().empty() ? nullptr : slope_.data();
  double error = loops_.close({cells_, scheme.e.data(), stage_view(), slope, stage_.data(),
                               next_.data(), network_.capacity().data(), stored_stages_.data()});
  take_next_where_enthalpy();
  watch_corners(error);
  error = std::max(error, network_.reactions().error());
  if (network_.conductor_may_melt() && std::isfinite(error)) {
    error = std::max(error, error_of_melting());
  }
  if (!network_.reactions().losing().empty() && std::isfinite(error)) {
    error = std::max(error, error_of_gases());
  }
  return std::isfinite(error) ? error : std::numeric_limits<double>::infinity();
}

/// From the next step on corners are treated thoroughly if they are what errs most by far: with
/// steps as long as is worth their cost.
void Stepper::watch_corners(double error) {
  if (at_corner_.empty() || always_ || corners_ == Comb::Corners::thorough ||
      !std::isfinite(error)) {
    return;
  }
  const auto error_of = [&](std::size_t cell) {
    double sum = 0.0;
    for (std::size_t i = 0; i < Scheme::stages; ++i) {
      sum += scheme.e[i] * stages_[i][cell];
    }
    return std::abs(sum) * slope_[cell];
  };
  const double little = error / worth_while_;
  for (std::size_t j = 0; j < network_.grid().stations(); ++j) {
    if (error_of(j) > little) {
      return;
    }
  }
  for (std::size_t c = 0; c < cells_; ++c) {
    if (!at_corner_[c] && error_of(c) > little) {
      return;
    }
  }
  corners_ = Comb::Corners::thorough;
}

/// What a cell's rise is wrong by, K, as its heat capacity falls only when the step is over: by
/// half of the part that goes, on the average.
double Stepper::error_of_gases() const {
  double largest = 0.0;
  for (const std::size_t k : network_.reactions().losing()) {
    const std::size_t cell = network_.reactions().cell(k);
    double rise = 0.0;
    for (std::size_t i = 0; i < Scheme::stages; ++i) {
      rise += scheme.m[i] * stages_[i][cell];
    }
    largest = std::max(largest, 0.5 * network_.reactions().shed(k) * std::abs(rise));
  }
  return largest;
}

/// The conductor's estimated error, K, with dT/du of where the step ends: where a station stops
/// melting or freezing in the step, the slope of where it began would hide thousands of times as
/// much.
double Stepper::error_of_melting() const {
  double largest = 0.0;
  for (std::size_t j = 0; j < network_.grid().stations(); ++j) {
    double error = 0.0;
    double end = u_[j];
    for (std::size_t i = 0; i < Scheme::stages; ++i) {
      error += scheme.e[i] * stages_[i][j];
      end += scheme.m[i] * stages_[i][j];
    }
    largest = std::max(largest, std::abs(error) * network_.slope_of(j, end));
  }
  return largest;
}

/// Temperatures at which a stage's heat flows are taken, those of cells that the network reads
/// before its rows are filled; those of the first stage also tell slope_.
Cells& Stepper::stage_temperature(std::size_t i) {
  const auto& enthalpy = network_.enthalpy_cells();
  if (i == 0) {
    if (enthalpy.empty()) {
      return u_;
    }
    network_.temperatures(u_, temperature_, slope_);
    return temperature_;
  }
  const double* weight = scheme.a[i].data();
  for (const auto& [first, count] : network_.rows_read()) {
    const StageView stages{{&stages_[0][first], &stages_[1][first], &stages_[2][first], nullptr}};
    loops_.combine(i, count, &stage_[first], &u_[first], weight, stages);
  }
  const auto& cells = network_.cells_read();
  loops_.combine_at(i, cells.size(), cells.data(), stage_.data(), u_.data(), weight, stage_view());
  if (i + 1 == Scheme::stages) {
    last_u_.resize(enthalpy.size());  // a conductor that begins to melt joins them
    for (std::size_t k = 0; k < enthalpy.size(); ++k) {
      last_u_[k] = stage_[enthalpy[k]];
    }
  }
  network_.to_temperatures(0, cells_, stage_);
  return stage_;
}

/// Where stage_ is a temperature and not u.
void Stepper::take_next_where_enthalpy() {
  const auto& enthalpy = network_.enthalpy_cells();
  for (std::size_t k = 0; k < enthalpy.size(); ++k) {
    next_[enthalpy[k]] = last_u_[k] + stages_.back()[enthalpy[k]];
  }
}

/// The same stage for heat made and lost, with the slopes the factors used: what the cells gain is
/// then exactly what the ledger books.
void Stepper::keep_ledger(std::size_t i, double s, const Totals& totals, const Booked& booked) {
  double made = s * totals.made + booked.made;
  double lost = s * totals.lost + booked.lost;
  for (std::size_t k = 0; k < i; ++k) {
    made += scheme.gamma * scheme.c[i][k] * ledger_stages_.made[k];
    lost += scheme.gamma * scheme.c[i][k] * ledger_stages_.lost[k];
  }
  ledger_stages_.made[i] = made;
  ledger_stages_.lost[i] = lost;
}

Ledger Stepper::ledger_at(double theta) const {
  Ledger ledger = ledger_;
  const auto weights = weights_at(theta);
  for (std::size_t i = 0; i < Scheme::stages; ++i) {
    ledger.made += weights[i] * ledger_stages_.made[i];
    ledger.lost += weights[i] * ledger_stages_.lost[i];
    ledger.stored += weights[i] * stored_stages_[i];
  }
  return ledger;
}

double Stepper::hottest_conductor_at(double theta) const {
  const Stretch conductor{0, network_.grid().stations()};
  temperatures_at(theta, std::span(&conductor, 1), line_);
  return *std::max_element(line_.begin(), line_.end());
}

void Stepper::temperatures_at(double theta, std::span<const std::size_t> cells,
                              std::span<double> temperature) const {
  const auto weights = weights_at(theta);
  for (const std::size_t c : cells) {
    double u = u_[c];
    for (std::size_t i = 0; i < Scheme::stages; ++i) {
      u += weights[i] * stages_[i][c];
    }
    temperature[c] = network_.temperature_of(c, u);
  }
}

void Stepper::temperatures_at(double theta, std::span<const Stretch> stretches,
                              std::span<double> temperature) const {
  const auto weights = weights_at(theta);
  for (const Stretch& stretch : stretches) {
    const std::size_t at = stretch.first;
    const StageView stages{{&stages_[0][at], &stages_[1][at], &stages_[2][at], &stages_[3][at]}};
    loops_.combine(Scheme::stages, stretch.count, &temperature[at], &u_[at], weights.data(),
                   stages);
    network_.to_temperatures(stretch.first, stretch.count, temperature);
  }
}

void Stepper::advance(double theta) {
  const auto weights = weights_at(theta);
  for (std::size_t i = 0; i < Scheme::stages; ++i) {
    ledger_.made += weights[i] * ledger_stages_.made[i];
    ledger_.lost += weights[i] * ledger_stages_.lost[i];
    ledger_.stored += weights[i] * stored_stages_[i];
  }
  if (theta != 1.0) {  // next_ is the state at the end
    loops_.combine(Scheme::stages, cells_, next_.data(), u_.data(), weights.data(), stage_view());
  }
  u_.swap(next_);
  network_.remember(u_);
  network_.reactions().advance(weights);
  let_gases_go();
}

/// Between time steps, like the past of wood: within one, heat capacity is what it was.
void Stepper::let_gases_go() {
  for (const std::size_t k : network_.reactions().losing()) {
    const std::size_t cell = network_.reactions().cell(k);
    let_go(held(cell));
    network_.shed(k);
    let_go(-held(cell));
    comb_.take_capacities({&cell, 1});
  }
}

void Stepper::converted_at(double theta, std::span<double> converted) const {
  const auto weights = weights_at(theta);
  for (std::size_t k = 0; k < converted.size(); ++k) {
    converted[k] = network_.reactions().converted(k, weights);
  }
}

void Stepper::lose_covering(std::span<const std::size_t> sites) {
  for (const std::size_t index : sites) {
    const CoveringSites::Site& site = network_.covering().sites()[index];
    const double kelvin = network_.temperature_of(site.face.station, u_[site.face.station]);
    for (const std::size_t cell : site.cells) {
      let_go(held(cell));
    }
    network_.lose_covering(index);
    for (const std::size_t cell : site.cells) {
      u_[cell] = network_.variable_of(cell, kelvin);
      let_go(-held(cell));
    }
    comb_.take_capacities(site.cells);
  }
}

Ledger Stepper::ledger() const {
  Ledger ledger = ledger_;
  ledger.stored = stored();
  return ledger;
}

double Stepper::stored() const {
  return loops_.stored(cells_, network_.capacity().data(), u_.data(), start_.data());
}

}  // namespace ampstair::marching
