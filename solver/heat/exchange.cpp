// SPDX-License-Identifier: MIT
#include "heat/exchange.hpp"

#include <algorithm>
#include <cmath>

#include "heat/constants.hpp"

namespace ampstair::heat {

namespace {

// The film coefficient is tabulated: a correlation costs four powers, a look-up one square root.
// It has a cusp where the surface is as warm as the air, so it is tabulated against the root of the
// difference with its sign, at even spacing with cubic Hermite pieces: 1e-4 of the flux from 0.1 K
// on, and everywhere to what a hundredth of a kelvin would drive.
constexpr double table_begin = -13.0;    // K^1/2: 169 K below the air
constexpr double table_spacing = 0.08;   // K^1/2
constexpr std::size_t table_size = 632;  // to 1400 K above it

}  // namespace

Exchange::Exchange(const FaceKind& kind, const scenario::Surroundings& surroundings, double time)
    : kind_(kind), convection_(surroundings.convection) {
  held_ = kind.to == FaceKind::To::held;
  double emissivity = kind.emissivity;
  if (surroundings.film) {
    fixed_ = kind.convects * surroundings.film->coefficient;
    emissivity = surroundings.film->emissivity.value_or(emissivity);
  } else if (!held_) {
    film_.resize(table_size);
  }
  radiation_ = kind.radiates * emissivity * stefan_boltzmann;
  face(prevailing_from(surroundings, time).at(time));
  if (!film_.empty()) {
    tabulate(0, table_size - 1);
  }
}

void Exchange::face(const Ambient& ambient) {
  ambient_ = ambient;
  air_ = held_ ? held_at(ambient) : ambient.air;
  walls_emission_ = emission(ambient.walls);
}

/// Makes the table between two of its points, both included.
void Exchange::tabulate(std::size_t first, std::size_t last) {
  const Flow flow{air_, ambient_.speed, convection_};
  for (std::size_t i = first; i <= last; ++i) {
    const double root = table_begin + table_spacing * static_cast<double>(i);
    const double surface = std::max(air_ + root * std::abs(root), 1.0);
    film_[i][0] =
        kind_.convects * film_coefficient(kind_.shape, {kind_.length, kind_.height}, surface, flow);
  }
  for (std::size_t i = first; i <= last; ++i) {
    const std::size_t a = i == 0 ? 0 : i - 1;
    const std::size_t b = std::min(i + 1, table_size - 1);
    film_[i][1] = (film_[b][0] - film_[a][0]) / static_cast<double>(b - a);
  }
}

void Exchange::set(const Ambient& ambient, double coldest, double hottest) {
  const bool same_film = ambient.air == ambient_.air && ambient.speed == ambient_.speed;
  face(ambient);
  if (film_.empty() || same_film) {
    return;
  }
  // Rounds of Newton's method may reach a little beyond; further off, points of before still stand.
  constexpr double margin = 6.0;
  const auto point = [&](double surface, double beyond) {
    const double rise = surface - air_;
    const double root = std::copysign(std::sqrt(std::abs(rise)), rise);
    const double x = (root - table_begin) / table_spacing + beyond;
    return static_cast<std::size_t>(std::clamp(x, 0.0, static_cast<double>(table_size - 1)));
  };
  tabulate(point(coldest, -margin), point(hottest, margin));
}

Exchange::Film Exchange::film(double rise) const {
  if (film_.empty()) {
    return {fixed_, 0.0};
  }
  const double root = std::copysign(std::sqrt(std::abs(rise)), rise);
  const double x = std::clamp((root - table_begin) / table_spacing, 0.0,
                              static_cast<double>(table_size - 1) - 1e-9);
  const auto i = static_cast<std::size_t>(x);
  const double s = x - static_cast<double>(i);
  const auto [value, a_slope] = film_[i];
  const auto [b_value, b_slope] = film_[i + 1];
  const double step = b_value - value;
  const double c2 = 3.0 * step - 2.0 * a_slope - b_slope;
  const double c3 = a_slope + b_slope - 2.0 * step;
  return {value + s * (a_slope + s * (c2 + s * c3)),
          // d/d root times rise / (2 |root|), without the division
          0.5 * root * (a_slope + s * (2.0 * c2 + 3.0 * s * c3)) / table_spacing};
}

ExchangeLaw Exchange::law() const {
  ExchangeLaw law{air_, radiation_, walls_emission_, fixed_};
  if (!film_.empty()) {
    law.film = film_.front().data();
    law.table_begin = table_begin;
    law.table_spacing = table_spacing;
    law.table_size = table_size;
  }
  return law;
}

Exchange::Flux Exchange::at(double surface) const {
  return flux(surface, air_, walls_emission_);
}

Exchange::Flux Exchange::flux(double surface, double air, double walls_emission) const {
  const double rise = surface - air;
  const Film h = film(rise);
  const double cube = surface * surface * surface;
  return {h.value * rise + radiation_ * cube * surface - walls_emission,
          h.value + h.slope_times_rise + 4.0 * radiation_ * cube};
}

double Exchange::held_at(const Ambient& ambient) const {
  return kind_.held_at > 0.0 ? kind_.held_at : ambient.air;
}

double Exchange::emission(double walls) const {
  return radiation_ * walls * walls * walls * walls;
}

Exchange::Surface Exchange::behind(double conductance, double cell, double guess) const {
  return behind(conductance, cell, guess, ambient_);
}

Exchange::Surface Exchange::behind(double conductance, double cell, double guess,
                                   const Ambient& ambient) const {
  if (held_) {
    const double at = held_at(ambient);
    return {at, conductance * (cell - at), conductance};
  }
  const double walls_emission = emission(ambient.walls);
  const auto here = [&](double surface) { return flux(surface, ambient.air, walls_emission); };
  double ts = guess;
  Flux q = here(ts);
  for (int round = 0; round < 12; ++round) {
    const double step = (conductance * (cell - ts) - q.value) / (conductance + q.slope);
    ts += step;
    q = here(ts);
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
