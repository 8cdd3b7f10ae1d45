// SPDX-License-Identifier: MIT
#include "instruments/touch.hpp"

#include <array>
#include <cmath>
#include <cstddef>

namespace ampstair::instruments {

namespace {

constexpr double zero_celsius = 273.15;

struct Threshold {
  double contact;    // s
  double low, high;  // degC
};
using Figures = std::array<Threshold, 5>;

// ISO 13732-1 (from memory): figures for 1 s and 10 s as bands, one value from 1 min on.
constexpr Figures bare_metal{{{1.0, 65.0, 70.0},
                              {10.0, 55.0, 58.0},
                              {60.0, 51.0, 51.0},
                              {600.0, 48.0, 48.0},
                              {28800.0, 43.0, 43.0}}};
constexpr Figures ceramic{{{1.0, 80.0, 86.0},
                           {10.0, 66.0, 72.0},
                           {60.0, 56.0, 56.0},
                           {600.0, 48.0, 48.0},
                           {28800.0, 43.0, 43.0}}};
constexpr Figures plastic{{{1.0, 85.0, 93.0},
                           {10.0, 71.0, 79.0},
                           {60.0, 60.0, 60.0},
                           {600.0, 48.0, 48.0},
                           {28800.0, 43.0, 43.0}}};
constexpr Figures wood{{{1.0, 99.0, 120.0},
                        {10.0, 89.0, 89.0},
                        {60.0, 60.0, 60.0},
                        {600.0, 48.0, 48.0},
                        {28800.0, 43.0, 43.0}}};
constexpr double shortest_contact = 0.5;  // s, scope of the standard

const Figures& figures(Touched::Kind kind) {
  switch (kind) {
    case Touched::Kind::bare_metal:
      return bare_metal;
    case Touched::Kind::ceramic:
      return ceramic;
    case Touched::Kind::plastic:
      return plastic;
    case Touched::Kind::wood:
      return wood;
  }
  return bare_metal;  // the strictest
}

}  // namespace

double skin_contact(double surface, double effusivity, double skin, double skin_effusivity) {
  return (effusivity * surface + skin_effusivity * skin) / (effusivity + skin_effusivity);
}

std::optional<BurnBand> burn_band(Touched::Kind kind, double contact) {
  if (!(contact >= shortest_contact)) {
    return std::nullopt;
  }
  const Figures& f = figures(kind);
  std::size_t i = 0;
  while (i + 2 < f.size() && f[i + 1].contact < contact) {
    ++i;
  }
  // Half a second is read off the first line drawn on; beyond eight hours the last figure stands.
  const double part =
      std::fmin(std::log(contact / f[i].contact) / std::log(f[i + 1].contact / f[i].contact), 1.0);
  return BurnBand{zero_celsius + std::lerp(f[i].low, f[i + 1].low, part),
                  zero_celsius + std::lerp(f[i].high, f[i + 1].high, part)};
}

TouchState judge_touch(Touched::Kind kind, double surface, double contact) {
  const auto band = burn_band(kind, contact);
  if (!band) {
    return TouchState::outside_scope;
  }
  if (surface < band->low) {
    return TouchState::below;
  }
  return surface < band->high ? TouchState::in_band : TouchState::above;
}

}  // namespace ampstair::instruments
