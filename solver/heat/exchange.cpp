// SPDX-License-Identifier: MIT
#include "heat/exchange.hpp"

#include <algorithm>
#include <cmath>

#include "heat/constants.hpp"

namespace ampstair::heat {

namespace {

// The film coefficient is tabulated: a correlation costs four powers, a look-up none. Even spacing
// of 4 K with cubic Hermite pieces reproduces the correlation to 1e-4 of the flux.
constexpr double table_begin = 200.0;
constexpr double table_spacing = 4.0;
constexpr std::size_t table_size = 352;  // to 1604 K

}  // namespace

const scenario::AirStep& air_at_time(const scenario::Surroundings& surroundings, double time) {
  const auto& air = surroundings.air;
  std::size_t i = 0;
  while (i + 1 < air.size() && air[i + 1].from_time <= time) {
    ++i;
  }
  return air[i];
}

Exchange::Exchange(const FaceKind& kind, const scenario::Surroundings& surroundings, double time) {
  const auto& air = air_at_time(surroundings, time);
  air_ = air.temperature;
  walls_ = surroundings.walls.value_or(air_);
  if (kind.to == FaceKind::To::held) {
    held_ = true;
    air_ = kind.held_at > 0.0 ? kind.held_at : air_;
    return;
  }
  double emissivity = kind.emissivity;
  if (surroundings.film) {
    fixed_ = surroundings.film->coefficient;
    emissivity = surroundings.film->emissivity.value_or(emissivity);
  } else {
    table_.resize(table_size);
    for (std::size_t i = 0; i < table_size; ++i) {
      const double t = table_begin + table_spacing * static_cast<double>(i);
      table_[i].value = film_coefficient(kind.shape, kind.length, t, {air_, air.speed});
    }
    for (std::size_t i = 0; i < table_size; ++i) {
      const std::size_t a = i == 0 ? 0 : i - 1;
      const std::size_t b = std::min(i + 1, table_size - 1);
      table_[i].slope = (table_[b].value - table_[a].value) / static_cast<double>(b - a);
    }
  }
  radiation_ = emissivity * stefan_boltzmann;
  walls_emission_ = radiation_ * walls_ * walls_ * walls_ * walls_;
}

Exchange::Coefficient Exchange::convection(double surface) const {
  if (table_.empty()) {
    return {fixed_, 0.0};
  }
  const double x = std::clamp((surface - table_begin) / table_spacing, 0.0,
                              static_cast<double>(table_size - 1) - 1e-9);
  const auto i = static_cast<std::size_t>(x);
  const double s = x - static_cast<double>(i);
  const auto& a = table_[i];
  const auto& b = table_[i + 1];
  const double rise = b.value - a.value;
  const double c2 = 3.0 * rise - 2.0 * a.slope - b.slope;
  const double c3 = a.slope + b.slope - 2.0 * rise;
  return {a.value + s * (a.slope + s * (c2 + s * c3)),
          (a.slope + s * (2.0 * c2 + 3.0 * s * c3)) / table_spacing};
}

Exchange::Flux Exchange::at(double surface) const {
  const Coefficient h = convection(surface);
  const double rise = surface - air_;
  const double cube = surface * surface * surface;
  return {h.value * rise + radiation_ * cube * surface - walls_emission_,
          h.value + h.slope * rise + 4.0 * radiation_ * cube};
}

Exchange::Surface Exchange::behind(double conductance, double cell, double guess) const {
  if (held_) {
    return {air_, conductance * (cell - air_), conductance};
  }
  double ts = guess;
  Flux q = at(ts);
  for (int round = 0; round < 12; ++round) {
    const double step = (conductance * (cell - ts) - q.value) / (conductance + q.slope);
    ts += step;
    q = at(ts);
    if (std::abs(step) < 1e-7) {
      break;
    }
  }
  // One more correction without a look-up leaves an error of the order of step squared.
  const double total = conductance + q.slope;
  const double step = (conductance * (cell - ts) - q.value) / total;
  return {ts + step, q.value + q.slope * step, conductance * q.slope / total};
}

}  // namespace ampstair::heat
