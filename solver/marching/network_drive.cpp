// SPDX-License-Identifier: MIT
// What the supply drives through a network and what that makes.
#include "marching/network.hpp"

namespace ampstair::marching {

double HeatNetwork::wire_resistance(std::size_t station, double kelvin) const {
  return media_[0].resistivity.at(kelvin) * metres_per_area_[station];
}

HeatNetwork::Loop HeatNetwork::loop(std::span<const double> temperature) const {
  Loop loop;
  for (std::size_t j = 0; j < grid_.stations(); ++j) {
    loop.wire += wire_resistance(j, temperature[j]);
  }
  add_contacts_and_leads(temperature, loop);
  return loop;
}

void HeatNetwork::add_contacts_and_leads(std::span<const double> temperature, Loop& loop) const {
  loop.whole = loop.wire + unmodelled_leads_;
  for (const auto& body : grid_.bodies) {
    loop.whole += body.contact_resistance;
    for (std::size_t i = 0; i < body.cells; ++i) {
      if (body.metres_per_area[i] > 0.0) {
        const std::size_t c = body.first_cell + i;
        loop.whole +=
            media_[grid_.medium[c]].resistivity.at(temperature[c]) * body.metres_per_area[i];
      }
    }
  }
}

Electrical HeatNetwork::drive_through(const Loop& loop, double time) const {
  Electrical e;
  switch (drive_.kind) {
    case scenario::Step::Kind::hold_current:
      e.asked = drive_.level_at(time);
      break;
    case scenario::Step::Kind::hold_voltage:
      e.asked = drive_.level_at(time) / loop.whole;
      break;
    case scenario::Step::Kind::rest:
      break;
  }
  e.current = e.asked;
  if (const auto limit = scenario_.supply.voltage_limit; limit && e.current > *limit / loop.whole) {
    e.current = *limit / loop.whole;
  }
  e.wire_voltage = e.current * loop.wire;
  e.supply_voltage = e.current * loop.whole;
  return e;
}

Electrical HeatNetwork::electrical(std::span<const double> temperature, double time) const {
  return drive_through(loop(temperature), time);
}

double HeatNetwork::make(std::span<const double> temperature, bool linearise) {
  Loop loop;
  media_[0].resistivity.at(temperature.first(grid_.stations()), metres_per_area_, made_);
  for (const double resistance : made_) {
    loop.wire += resistance;
  }
  add_contacts_and_leads(temperature, loop);
  const double current = drive_through(loop, time_).current;
  const double square = current * current;
  for (double& resistance_then_heat : made_) {
    resistance_then_heat *= square;
  }
  if (linearise) {
    for (std::size_t j = 0; j < grid_.stations(); ++j) {
      source_slope_[j] =
          square * media_[0].resistivity.slope_at(temperature[j]) * metres_per_area_[j];
    }
  }
  double made = square * loop.wire;
  for (const auto& body : grid_.bodies) {
    const double contact = square * body.contact_resistance;
    body_heat_[body.first_cell + body.tied - first_body_cell_] += contact;
    made += contact;
    for (std::size_t i = 0; i < body.cells; ++i) {
      if (body.metres_per_area[i] > 0.0) {
        const std::size_t c = body.first_cell + i;
        const double heat = square * media_[grid_.medium[c]].resistivity.at(temperature[c]) *
                            body.metres_per_area[i];
        body_heat_[c - first_body_cell_] += heat;
        made += heat;
      }
    }
  }
  return made;
}

}  // namespace ampstair::marching
