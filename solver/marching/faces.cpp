// SPDX-License-Identifier: MIT
#include "marching/faces.hpp"

#include <algorithm>
#include <cmath>

namespace ampstair::marching {

heat::Shape shape_of(const grid::Exposure& exposure) {
  switch (exposure.shape) {
    case grid::Exposure::Shape::plate:
      return heat::Shape::vertical_plate;
    case grid::Exposure::Shape::upright_cylinder:
      return heat::Shape::vertical_cylinder;
    default:
      return heat::Shape::horizontal_cylinder;
  }
}

namespace {

heat::FaceKind face_kind(const grid::Exposure& exposure) {
  heat::FaceKind kind;
  kind.to =
      exposure.to == grid::Exposure::To::held ? heat::FaceKind::To::held : heat::FaceKind::To::air;
  kind.shape = shape_of(exposure);
  kind.length = exposure.length;
  kind.height = exposure.height;
  kind.emissivity = exposure.emissivity;
  kind.held_at = exposure.held_at;
  kind.surroundings = exposure.surroundings;
  kind.convects = exposure.convects;
  kind.radiates = exposure.radiates;
  return kind;
}

/// Gt / (S + Gt), S = conductivity of the cell / link.shape_a: the tie's conductance over S.
double head_part(const SharedSurface& shared, std::span<const double> conductivity) {
  const double of_cell = conductivity[shared.cell];
  return conductance(shared.link, of_cell, conductivity[shared.head]) * shared.link.shape_a /
         of_cell;
}

}  // namespace

void Faces::set_surroundings(double time) {
  const bool first = exchanges_.empty();
  time_ = from_time_ = time;
  move_ = false;
  for (std::size_t e = 0; e < grid_.exposures.size(); ++e) {
    const auto kind = face_kind(grid_.exposures[e]);
    const auto& surroundings = scenario_.surroundings[kind.surroundings];
    const heat::Prevailing prevailing = heat::prevailing_from(surroundings, time);
    if (first) {
      exchanges_.emplace_back(kind, surroundings, time);
      prevailing_.push_back(prevailing);
    } else if (prevailing_[e] != prevailing) {  // a table of correlations is not made for nothing
      exchanges_[e] = heat::Exchange(kind, surroundings, time);
      prevailing_[e] = prevailing;
    }
    move_ = move_ || prevailing.moves();
  }
}

heat::Ambient Faces::ambient(std::size_t exposure, std::span<const double> temperature) const {
  if (const std::size_t bay = groups_[exposure].bay; bay != grid::Grid::npos) {
    return {temperature[grid_.bays[bay].air_cell], temperature[grid_.bays[bay].walls_cell], 0.0};
  }
  return prevailing_[exposure].at(time_);
}

double Faces::outside(std::size_t bay) const {
  const auto& surroundings = scenario_.surroundings[grid_.bays[bay].surroundings];
  return heat::prevailing_from(surroundings, from_time_).at(time_ + lead_).air;
}

/// What an ambient has come to, before faces whose cells are at group.temperature.
void Faces::follow_ambient(const Group& group, std::span<const double> temperature) {
  const heat::Ambient now = ambient(group.exposure, temperature);
  double coldest = std::min(now.air, now.walls);
  double hottest = std::max(now.air, now.walls);
  for (const double cell : group.temperature) {
    coldest = std::min(coldest, cell);
    hottest = std::max(hottest, cell);
  }
  exchanges_[group.exposure].set(now, coldest, hottest);
}

double Faces::exchange(std::span<const double> temperature, std::span<const double> conductivity,
                       bool linearise) {
  for (BayHeat& bay : bay_heat_) {
    bay = {0.0, 0.0, linearise ? 0.0 : bay.through};
  }
  double lost = 0.0;
  for (Group& group : groups_) {
    lost += exchange(group, temperature, conductivity, linearise);
  }
  return lost;
}

/// @param temperature, conductivity from the strip's first cell on
void Faces::gather(Group& group, const Strip& strip, const double* temperature,
                   const double* conductivity) {
  double* const here = &group.temperature[strip.place];
  double* const conductance = &group.conductance[strip.place];
  const double* const shape = &group.shape_per_area[strip.place];
  const std::size_t step = strip.step;
  if (step != 1) {
    for (std::size_t i = 0; i < strip.count; ++i) {
      here[i] = temperature[i * step];
      conductance[i] = conductivity[i * step] * shape[i];
    }
    return;
  }
  for (std::size_t i = 0; i < strip.count; ++i) {  // whole vectors
    here[i] = temperature[i];
    conductance[i] = conductivity[i] * shape[i];
  }
}

/// What the group's faces have behind and before them.
void Faces::gather(Group& group, std::span<const double> temperature,
                   std::span<const double> conductivity) {
  for (const Strip& strip : group.strips) {
    gather(group, strip, &temperature[strip.cell], &conductivity[strip.cell]);
  }
  for (const auto& [place, index] : group.shared) {
    SharedSurface& shared = shared_[index];
    shared.head_part = head_part(shared, conductivity);
    group.temperature[place] +=
        shared.head_part * (temperature[shared.head] - group.temperature[place]);
    group.conductance[place] /= 1.0 - shared.head_part;
  }
  if (group.bay != grid::Grid::npos || (move_ && prevailing_[group.exposure].moves())) {
    follow_ambient(group, temperature);
  }
}

void Faces::surfaces(std::span<const double> temperature, std::span<const double> conductivity,
                     std::span<double> out) {
  // What is left after a round goes with the square of what it moved, here a millionth of a kelvin.
  constexpr double near = 1e-3;  // K
  for (Group& group : groups_) {
    gather(group, temperature, conductivity);
    double moved = solve_surfaces(group, Rounds::one);
    for (int again = 0; again < 10 && moved > near; ++again) {
      keep(group);
      moved = solve_surfaces(group, Rounds::one);
    }
    for (const Strip& strip : group.strips) {
      std::copy_n(&group.surface[strip.place], strip.count, &out[strip.face]);
    }
  }
}

double Faces::exchange(Group& group, std::span<const double> temperature,
                       std::span<const double> conductivity, bool linearise) {
  gather(group, temperature, conductivity);
  const std::size_t count = group.face.size();
  const bool in_bay = group.bay != grid::Grid::npos;
  double moved = solve_surfaces(group, Rounds::two);
  if (linearise) {
    // The kernel does a few rounds from the last linearised state: enough for the stages of a step,
    // not for a state far away, which the next step is going to start from. What is still wrong
    // after a round goes with the square of what it moved.
    constexpr double settled = 1e-5;  // K
    keep(group);
    for (int again = 0; again < 5 && moved > settled; ++again) {
      moved = solve_surfaces(group, Rounds::two);
      keep(group);
    }
  }
  const bool moves = !in_bay && move_ && prevailing_[group.exposure].moves();
  if (moves && linearise) {
    find_drift(group, temperature);
  }
  double lost = kernels().sum_products(count, group.flux.data(), group.area.data());
  for (const Strip& strip : group.strips) {
    double* const heat = &heat_[strip.face];
    for (std::size_t i = 0; i < strip.count; ++i) {
      heat[i] = group.flux[strip.place + i] * group.area[strip.place + i];
    }
  }
  if (moves && !group.drift.empty()) {
    for (std::size_t i = 0; i < count; ++i) {
      const double drift = lead_ * group.drift[i] * group.area[i];
      heat_[group.face[i]] += drift;
      lost += drift;
    }
  }
  if (in_bay) {
    give_to_bay(group, linearise);
  }
  divide(group, linearise);
  return in_bay ? 0.0 : lost;
}

/// How the flux changes by itself: from one second to the next, the cells kept as they are.
void Faces::find_drift(Group& group, std::span<const double> temperature) {
  constexpr double second = 1.0;
  const Cells surface = group.surface;
  const Cells flux = group.flux;
  const Cells slope = group.slope;
  time_ += second;
  follow_ambient(group, temperature);
  solve_surfaces(group, Rounds::two);
  group.drift.resize(flux.size());
  for (std::size_t i = 0; i < flux.size(); ++i) {
    group.drift[i] = (group.flux[i] - flux[i]) / second;
  }
  time_ -= second;
  follow_ambient(group, temperature);
  group.surface = surface;
  group.flux = flux;
  group.slope = slope;
}

/// With g from cell to surface, c and r the slopes of convection and radiation against the surface,
/// a surface between a cell, air and walls is a star; taken away, it leaves
///   g c / (g + c + r) from cell to air, g r / (g + c + r) to walls, c r / (g + c + r) between
///   them.
void Faces::give_to_bay(const Group& group, bool linearise) {
  BayHeat& bay = bay_heat_[group.bay];
  const heat::Exchange& exchange = exchanges_[group.exposure];
  for (std::size_t i = 0; i < group.face.size(); ++i) {
    const double radiated = exchange.radiated(group.surface[i]);
    bay.radiated += radiated * group.area[i];
    bay.convected += (group.flux[i] - radiated) * group.area[i];
    if (linearise) {
      const double g = group.conductance[i];
      const double both = g * group.slope[i] / (g - group.slope[i]);  // c + r
      const double radiates = std::min(exchange.radiated_slope(group.surface[i]), both);
      BaySite& site = bay_sites_[group.site[i]];
      site.to_walls = group.slope[i] * group.area[i] * radiates / both;
      site.to_air = group.slope[i] * group.area[i] - site.to_walls;
      bay.through += (both - radiates) * radiates / (g + both) * group.area[i];
    }
  }
}

std::vector<Faces::Given> Faces::given() const {
  std::vector<Given> all(grid_.faces.size());
  for (const Group& group : groups_) {
    const heat::Exchange& exchange = exchanges_[group.exposure];
    for (std::size_t i = 0; i < group.face.size(); ++i) {
      Given& given = all[group.face[i]];
      if (exchange.held()) {
        given.held = group.flux[i] * group.area[i];
        continue;
      }
      const double radiated = exchange.radiated(group.surface[i]);
      given.radiated = radiated * group.area[i];
      given.convected = (group.flux[i] - radiated) * group.area[i];
    }
  }
  return all;
}

/// What shared surfaces give off, between the cell and the head.
void Faces::divide(Group& group, bool linearise) {
  for (const auto& [place, index] : group.shared) {
    SharedSurface& shared = shared_[index];
    shared.head_heat = shared.head_part * heat_[shared.face];
    heat_[shared.face] -= shared.head_heat;
    if (linearise) {
      shared.head_slope = shared.head_part * slope_[shared.face];
      slope_[shared.face] -= shared.head_slope;
      if (group.bay != grid::Grid::npos) {  // the head's part has a site of its own, the next one
        BaySite& of_cell = bay_sites_[group.site[place]];
        BaySite& of_head = bay_sites_[group.site[place] + 1];
        of_head.to_air = shared.head_part * of_cell.to_air;
        of_head.to_walls = shared.head_part * of_cell.to_walls;
        of_cell.to_air -= of_head.to_air;
        of_cell.to_walls -= of_head.to_walls;
      }
      shared.tie_slope = shared.head_part * slope_[shared.face];
    }
  }
}

/// @return how far the last round of Newton's method has moved any of them, K
double Faces::solve_surfaces(Group& group, Rounds rounds) const {
  const heat::Exchange& exchange = exchanges_[group.exposure];
  if (exchange.held()) {
    for (std::size_t i = 0; i < group.face.size(); ++i) {
      group.surface[i] = exchange.air_temperature();
      group.slope[i] = group.conductance[i];
      group.flux[i] = group.conductance[i] * (group.temperature[i] - group.surface[i]);
    }
    return 0.0;
  }
  return kernels().exchange(
      exchange.law(),
      {group.face.size(), group.temperature.data(), group.conductance.data(), group.guess.data(),
       group.guess_cell.data(), group.guess_slope.data(), group.surface.data(), group.flux.data(),
       group.slope.data(), rounds == Rounds::one});
}

/// Makes the state just solved the one that predictions start from.
void Faces::keep(Group& group) {
  for (const Strip& strip : group.strips) {
    double* const slope = &slope_[strip.face];
    double* const guess = &guess_[strip.face];
    for (std::size_t i = 0; i < strip.count; ++i) {
      slope[i] = group.slope[strip.place + i] * group.area[strip.place + i];
      guess[i] = group.surface[strip.place + i];
    }
  }
  for (std::size_t i = 0; i < group.face.size(); ++i) {
    group.guess[i] = group.surface[i];
    group.guess_cell[i] = group.temperature[i];
    // Surface against cell: g / (g + film slope) = 1 - d flux / d cell / g.
    group.guess_slope[i] = 1.0 - group.slope[i] / group.conductance[i];
  }
}

double Faces::surface(std::size_t face, std::span<const double> temperature,
                      std::span<const double> conductivity) const {
  const grid::Face& f = grid_.faces[face];
  double cell = temperature[f.cell];
  double conductance = conductivity[f.cell] * f.shape / f.area;
  if (const SharedSurface* at = shared(face)) {
    const double part = head_part(*at, conductivity);
    cell += part * (temperature[at->head] - cell);
    conductance /= 1.0 - part;
  }
  return exchanges_[f.exposure]
      .behind(conductance, cell, guess_[face], ambient(f.exposure, temperature))
      .temperature;
}

}  // namespace ampstair::marching
