// SPDX-License-Identifier: MIT
#include "marching/wood_contacts.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "grid/column.hpp"
#include "heat/wood_properties.hpp"
#include "marching/heat_rows.hpp"

namespace ampstair::marching {

namespace {

constexpr const char* wood = "wood";
// A step is looked at this often: its temperatures are cubics.
constexpr double stride = 0.25;

/// Part of a span in which a straight line from a to b is above a level.
double part_above(double a, double b, double level) {
  if (a >= level && b >= level) {
    return 1.0;
  }
  if (a < level && b < level) {
    return 0.0;
  }
  const double crossing = (level - a) / (b - a);
  return a < level ? 1.0 - crossing : crossing;
}

}  // namespace

WoodContacts::WoodContacts(const HeatNetwork& network) : network_(network) {
  add_round_the_wire();
  add_bodies();
  std::stable_sort(contacts_.begin(), contacts_.end(),
                   [](const Contact& a, const Contact& b) { return a.position < b.position; });
  for (const Contact& contact : contacts_) {
    positions_.push_back(contact.position);
    faces_cells_.push_back(contact.touching);
    faces_cells_.push_back(contact.cells.front());
  }
  temperature_.assign(network.grid().cells, 0.0);
  for (auto* of_contact : {&face_, &char_depth_, &above_long_, &above_short_}) {
    of_contact->assign(contacts_.size(), 0.0);
  }
}

void WoodContacts::add_round_the_wire() {
  const auto& grid = network_.grid();
  for (std::size_t j = 0; j < grid.stations(); ++j) {
    const auto column = grid::column_at(grid, j);
    const auto is_wood = [&](const grid::ColumnCell& c) {
      return grid.media[grid.medium[c.cell]].part == wood;
    };
    const auto first = std::find_if(column.begin(), column.end(), is_wood);
    if (first == column.end() || first == column.begin()) {
      continue;
    }
    const auto& below = *std::prev(first);
    Contact contact;
    contact.position = grid.station_centre[j];
    contact.touching = below.cell;
    const double turn = 2.0 * std::numbers::pi * (grid.station_face[j + 1] - grid.station_face[j]);
    contact.link = {outer_path(grid.patches[below.patch], below.row) / turn,
                    inner_path(grid.patches[first->patch], first->row) / turn, 0.0};
    for (auto c = first; c != column.end() && is_wood(*c); ++c) {
      const double mean = std::exp(grid::log_mean_radius(c->inner_radius, c->outer_radius));
      contact.cells.push_back(c->cell);
      contact.depth.push_back(mean - first->inner_radius);
      contact.end = c->outer_radius - first->inner_radius;
    }
    contacts_.push_back(std::move(contact));
  }
}

void WoodContacts::add_bodies() {
  for (const auto& body : network_.grid().bodies) {
    for (const auto& spot : body.spots) {
      if (spot.part != wood) {
        continue;
      }
      Contact contact;
      contact.position = body.position;
      contact.touching = body.first_cell + spot.cell - 1;
      contact.link = body.chain[spot.cell - 1];
      for (std::size_t i = spot.cell; i < body.cells; ++i) {
        contact.cells.push_back(body.first_cell + i);
        contact.depth.push_back(body.depth[i]);
      }
      contact.end = body.end_depth;
      contacts_.push_back(std::move(contact));
    }
  }
}

double WoodContacts::face(const Contact& contact, std::span<const double> temperature) const {
  const std::size_t cell = contact.cells.front();
  const double drop = temperature[contact.touching] - temperature[cell];
  const double flow = network_.link_conductance(contact.link, contact.touching, cell) * drop;
  return temperature[cell] +
         std::max(0.0, flow * contact.link.shape_b / network_.conductivity(cell));
}

/// Depth [m] of the char line, between two cells by a straight line.
double WoodContacts::front(const Contact& contact, std::span<const double> temperature) const {
  for (std::size_t i = contact.cells.size(); i-- > 0;) {
    const double here = temperature[contact.cells[i]];
    if (here < heat::char_line) {
      continue;
    }
    if (i + 1 == contact.cells.size()) {
      return contact.end;
    }
    const double next = temperature[contact.cells[i + 1]];
    return std::lerp(contact.depth[i], contact.depth[i + 1],
                     (here - heat::char_line) / (here - next));
  }
  const double first = temperature[contact.cells.front()];
  const double at_face = face(contact, temperature);
  return at_face < heat::char_line
             ? 0.0
             : contact.depth.front() * (at_face - heat::char_line) / (at_face - first);
}

void WoodContacts::begin(double time, std::span<const double> temperature) {
  seen_until_ = time;
  for (std::size_t k = 0; k < contacts_.size(); ++k) {
    face_[k] = face(contacts_[k], temperature);
    char_depth_[k] = std::max(char_depth_[k], front(contacts_[k], temperature));
  }
}

void WoodContacts::follow(const Stepper& stepper, double begin, double length, double theta) {
  if (contacts_.empty()) {
    return;
  }
  const double from = (seen_until_ - begin) / length;
  const int looks = std::max(1, static_cast<int>(std::ceil((theta - from) / stride - 1e-9)));
  for (int i = 1; i <= looks; ++i) {
    const double part = std::lerp(from, theta, static_cast<double>(i) / looks);
    take(stepper, part, begin + part * length);
  }
}

void WoodContacts::take(const Stepper& stepper, double theta, double time) {
  const double passed = time - seen_until_;
  if (passed <= 0.0) {
    return;
  }
  seen_until_ = time;
  stepper.temperatures_at(theta, faces_cells_, temperature_);
  for (std::size_t k = 0; k < contacts_.size(); ++k) {
    const double before = face_[k];
    face_[k] = face(contacts_[k], temperature_);
    above_long_[k] += passed * part_above(before, face_[k], long_caution);
    above_short_[k] += passed * part_above(before, face_[k], short_caution);
    if (face_[k] >= heat::char_line) {
      stepper.temperatures_at(theta, contacts_[k].cells, temperature_);
      char_depth_[k] = std::max(char_depth_[k], front(contacts_[k], temperature_));
    }
  }
}

}  // namespace ampstair::marching
