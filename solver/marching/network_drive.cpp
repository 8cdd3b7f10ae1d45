// SPDX-License-Identifier: MIT
// What the supply drives through a network and what that makes.
#include <algorithm>
#include <cmath>
#include <limits>

#include "marching/network.hpp"

namespace ampstair::marching {

double HeatNetwork::wire_resistance(std::size_t station, double kelvin) const {
  return media_[0].resistivity.at(kelvin) * metres_per_area_[station];
}

double HeatNetwork::body_resistance(const grid::SideBody& body, std::size_t i,
                                    double kelvin) const {
  const double shape = body.metres_per_area[i];
  return shape > 0.0 ? media_[grid_.medium[body.first_cell + i]].resistivity.at(kelvin) * shape
                     : 0.0;
}

HeatNetwork::Loop HeatNetwork::loop(std::span<const double> temperature) const {
  Loop loop;
  loop.wire = media_[0].resistivity.sum_at(temperature.first(grid_.stations()), metres_per_area_);
  add_contacts_and_leads(temperature, loop);
  return loop;
}

void HeatNetwork::add_contacts_and_leads(std::span<const double> temperature, Loop& loop) const {
  loop.whole = loop.wire + unmodelled_leads_;
  for (const auto& body : grid_.bodies) {
    loop.whole += body.contact_resistance;
    for (std::size_t i = 0; i < body.cells; ++i) {
      loop.whole += body_resistance(body, i, temperature[body.first_cell + i]);
    }
  }
}

/// The current that a voltage behind the inner resistance drives. A joint that glows takes P / I of
/// it: R I^2 + P = V I, of which the larger root is the one a supply comes to from a cold start.
/// Where there is none, the joint gets the most that the loop can give it.
double HeatNetwork::current_at_voltage(const Loop& loop, double volt) const {
  const double ohm = loop.whole + scenario_.supply.inner_resistance;
  if (whole_joint_heat_ <= 0.0) {
    return volt / ohm;
  }
  const double rest = std::max(volt * volt - 4.0 * ohm * whole_joint_heat_, 0.0);
  return (volt + std::sqrt(rest)) / (2.0 * ohm);
}

double HeatNetwork::beyond_limits(const Loop& loop, double asked) const {
  double beyond = -std::numeric_limits<double>::infinity();
  if (asked <= 0.0) {
    return beyond;
  }
  const auto& supply = scenario_.supply;
  const double terminals = asked * loop.whole + whole_joint_heat_ / asked;
  if (supply.voltage_limit) {
    beyond = terminals + asked * supply.inner_resistance - *supply.voltage_limit;
  }
  if (supply.power_limit) {
    beyond = std::max(beyond, terminals - *supply.power_limit / asked);
  }
  return beyond;
}

Electrical HeatNetwork::drive_through(const Loop& loop, double time) const {
  Electrical e;
  if (parted_) {
    e.asked = drive_.kind == scenario::Step::Kind::hold_current ? drive_.level_at(time) : 0.0;
    e.loop_resistance = std::numeric_limits<double>::quiet_NaN();
    e.beyond_limits = -std::numeric_limits<double>::infinity();
    return e;
  }
  double voltage = std::numeric_limits<double>::infinity();  // of the supply, where it is told one
  switch (drive_.kind) {
    case scenario::Step::Kind::hold_current:
      e.asked = drive_.level_at(time);
      break;
    case scenario::Step::Kind::hold_voltage:
      voltage = drive_.level_at(time);
      e.asked = current_at_voltage(loop, voltage);
      break;
    case scenario::Step::Kind::rest:
      break;
  }
  e.loop_resistance = loop.whole;
  e.beyond_limits = beyond_limits(loop, e.asked);
  e.current = e.asked;
  const auto& supply = scenario_.supply;
  if (supply.voltage_limit) {
    const double most = current_at_voltage(loop, *supply.voltage_limit);
    if (e.current > most) {
      e.current = most;
      voltage = *supply.voltage_limit;
    }
  }
  if (supply.power_limit && e.current > 0.0) {
    const double left = std::max(*supply.power_limit - whole_joint_heat_, 0.0);
    e.current = std::min(e.current, std::sqrt(left / loop.whole));
  }
  e.wire_voltage = e.current * loop.wire;
  e.supply_voltage = e.current * loop.whole;
  if (whole_joint_heat_ > 0.0 && e.current > 0.0) {
    const double ohm = loop.whole + supply.inner_resistance;
    e.joint_heat = std::min(whole_joint_heat_, e.current * (voltage - e.current * ohm));
    e.wire_voltage += e.joint_heat / e.current;
    e.supply_voltage += e.joint_heat / e.current;
  }
  return e;
}

Electrical HeatNetwork::electrical(std::span<const double> temperature, double time) const {
  return drive_through(loop(temperature), time);
}

double HeatNetwork::make(std::span<const double> temperature, bool linearise) {
  Loop loop;
  media_[0].resistivity.at(temperature.first(grid_.stations()), metres_per_area_, made_);
  loop.wire = kernels().sum(made_.size(), made_.data());
  add_contacts_and_leads(temperature, loop);
  const Electrical driven = drive_through(loop, time_);
  const double square = driven.current * driven.current;
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
  if (driven.joint_heat > 0.0) {
    const double part = driven.joint_heat / whole_joint_heat_;
    for (std::size_t j = 0; j < made_.size(); ++j) {
      made_[j] += part * joint_heat_[j];
    }
    made += driven.joint_heat;
  }
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
