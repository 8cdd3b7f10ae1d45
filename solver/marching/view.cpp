// SPDX-License-Identifier: MIT
#include "marching/view.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "grid/column.hpp"

namespace ampstair::marching {

namespace {

constexpr std::size_t none = grid::Grid::npos;
constexpr double two_pi = 2.0 * std::numbers::pi;

}  // namespace

View::View(const HeatNetwork& network, const scenario::Scenario& scenario)
    : network_(network), scenario_(scenario), exposed_(network, scenario) {
  find_ties();
  build_columns();
  build_parts(scenario);
}

void View::find_ties() {
  const auto& grid = network_.grid();
  tie_head_.assign(grid.stations(), none);
  tie_link_.resize(grid.stations());
  for (const auto& body : grid.bodies) {
    for (const auto& tie : body.ties) {
      if (tie.cell != tie.station) {  // else it leaves the conductor, which is its own surface
        tie_head_[tie.station] = body.first_cell + body.tied;
        tie_link_[tie.station] = tie.link;
      }
    }
  }
  for (std::size_t j = 0; j < grid.stations(); ++j) {
    if (grid.outer_face[j] == none) {
      covered_.push_back(j);
    }
  }
}

void View::build_columns() {
  const auto& grid = network_.grid();
  for (std::size_t p = 0; p < grid.patches.size(); ++p) {
    const auto& patch = grid.patches[p];
    auto& rings = rings_.emplace_back();
    for (std::size_t i = 0; i < patch.rows; ++i) {
      const double inner = p == 0 ? 0.0 : inner_path(patch, i);
      rings.push_back({patch.radius[i], patch.radius[i + 1],
                       p == 0 ? patch.radius[i + 1] : patch.radius[i] * std::exp(inner), inner,
                       outer_path(patch, i)});
    }
  }
  for (std::size_t j = 0; j < grid.stations(); ++j) {
    const std::size_t first = cells_.size();
    for (const auto& c : grid::column_at(grid, j)) {
      cells_.push_back(c.cell);
      ring_.push_back(&rings_[c.patch][c.row]);
    }
    columns_.push_back({first, cells_.size() - 1});
  }
}

void View::build_parts(const scenario::Scenario& scenario) {
  const auto& grid = network_.grid();
  for (std::size_t j = 0; j < columns_.size(); ++j) {
    const std::string innermost =
        scenario.wire.layers.empty() ? std::string() : scenario.wire.layers.front().part;
    const auto [conductor, outermost] = columns_[j];
    for (std::size_t i = conductor + 1; i <= outermost;) {
      const auto part_at = [&](std::size_t k) -> const std::string& {
        return grid.media[grid.medium[cells_[k]]].part;
      };
      const std::string& part = part_at(i);
      std::size_t last = i;
      while (last < outermost && part_at(last + 1) == part) {
        ++last;
      }
      if (part != "gap" && !(i == conductor + 1 && part == innermost)) {
        add_spot(part, {i, last, 0, 0, false, false}, grid.station_centre[j]);
      }
      i = last + 1;
    }
  }
  for (std::size_t b = 0; b < grid.bodies.size(); ++b) {
    for (const auto& spot : grid.bodies[b].spots) {
      add_spot(spot.part,
               {0, 0, b, grid.bodies[b].first_cell + spot.cell, true, spot.towards_previous,
                grid.bodies[b].branch},
               grid.bodies[b].position);
    }
  }
  for (std::size_t b = 0; b < grid.bays.size(); ++b) {
    const grid::Bay& bay = grid.bays[b];
    const std::size_t body = grid.bodies.size() + b;
    add_spot("bay-air", {0, 0, body, bay.air_cell, true, false}, bay.position);
    add_spot("bay-walls", {0, 0, body, bay.walls_cell, true, false}, bay.position);
  }
  for (std::size_t p = 0; p < parts_.size(); ++p) {  // ascending along the run
    std::vector<std::size_t> order(spots_[p].size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return parts_[p].position[a] < parts_[p].position[b];
    });
    auto spots = spots_[p];
    const Part part = parts_[p];
    for (std::size_t k = 0; k < order.size(); ++k) {
      spots_[p][k] = spots[order[k]];
      parts_[p].position[k] = part.position[order[k]];
      parts_[p].side_body[k] = part.side_body[order[k]];
    }
    parts_[p].everywhere = parts_[p].position == grid.station_centre;
    build_strips(spots_[p]);
  }
}

void View::build_strips(const std::vector<Spot>& spots) {
  auto& strips = strips_.emplace_back();
  for (std::size_t k = 0; k < spots.size(); ++k) {
    if (k > 0 && follows(spots[k - 1], spots[k])) {
      ++strips.back().count;
    } else {
      strips.push_back({k, 1});
    }
  }
}

bool View::follows(const Spot& before, const Spot& spot) const {
  if (before.of_body || spot.of_body || before.last - before.first != spot.last - spot.first) {
    return false;
  }
  for (std::size_t i = 0; i <= spot.last - spot.first + 1; ++i) {  // from the cell below on
    const std::size_t a = before.first - 1 + i;
    const std::size_t b = spot.first - 1 + i;
    if (ring_[a] != ring_[b] || cells_[a] + 1 != cells_[b]) {
      return false;
    }
  }
  return true;
}

void View::add_spot(const std::string& part, const Spot& spot, double position) {
  auto found = std::find_if(parts_.begin(), parts_.end(),
                            [&](const Part& known) { return known.name == part; });
  if (found == parts_.end()) {
    parts_.push_back({part, {}, {}, false});
    spots_.emplace_back();
    found = std::prev(parts_.end());
  }
  found->position.push_back(position);
  found->side_body.push_back(spot.of_body && !spot.along ? spot.body : none);
  spots_[static_cast<std::size_t>(found - parts_.begin())].push_back(spot);
}

// ---- temperatures on faces ----------------------------------------------------------------------

double View::inner_face(std::size_t place, std::size_t ahead, std::span<const double> t) const {
  const std::size_t below = cells_[place - 1] + ahead;
  const std::size_t here = cells_[place] + ahead;
  // Each path over the conductivity of its own cell, times both conductivities.
  const double from = ring_[place - 1]->outer * network_.conductivity(here);
  const double to = ring_[place]->inner * network_.conductivity(below);
  return t[below] + (t[here] - t[below]) * from / (from + to);
}

double View::outermost(std::size_t station, std::span<const double> t) const {
  const std::size_t cell = cells_[columns_[station].last];
  const std::size_t face = network_.grid().outer_face[station];
  if (face != none) {
    return network_.surface(face, t);
  }
  if (tie_head_[station] != none) {
    const grid::Link& link = tie_link_[station];
    const std::size_t head = tie_head_[station];
    const double flow = network_.link_conductance(link, cell, head) * (t[cell] - t[head]);
    return t[cell] - flow * link.shape_a / network_.conductivity(cell);
  }
  return t[cell];
}

void View::surfaces(std::span<const double> temperature, std::span<double> out) const {
  for (std::size_t j = 0; j < columns_.size(); ++j) {
    out[j] = outermost(j, temperature);
  }
}

void View::surfaces(const Moment& moment, std::span<double> out) {
  exposed_.at(moment, out);
  for (const std::size_t j : covered_) {
    out[j] = outermost(j, moment.temperature);
  }
}

double View::hottest(const Spot& spot, std::span<const double> t) const {
  if (!spot.of_body) {
    double hottest = 0.0;
    hottest_of_layer(spot, t, std::span(&hottest, 1));
    return hottest;
  }
  if (!spot.towards_previous) {
    return t[spot.cell];
  }
  const auto& body = network_.grid().bodies[spot.body];
  const grid::Link& link = body.chain[spot.cell - body.first_cell - 1];
  const double flow =
      network_.link_conductance(link, spot.cell - 1, spot.cell) * (t[spot.cell - 1] - t[spot.cell]);
  return std::max(t[spot.cell],
                  t[spot.cell] + flow * link.shape_b / network_.conductivity(spot.cell));
}

void View::hottest_of_layer(const Spot& spot, std::span<const double> t,
                            std::span<double> out) const {
  for (std::size_t k = 0; k < out.size(); ++k) {
    out[k] = inner_face(spot.first, k, t);
  }
  for (std::size_t i = spot.first; i <= spot.last; ++i) {
    const double* row = &t[cells_[i]];
    for (std::size_t k = 0; k < out.size(); ++k) {
      out[k] = std::max(out[k], row[k]);
    }
  }
}

void View::part(std::size_t index, std::span<const double> temperature,
                std::span<double> out) const {
  for (const Strip& strip : strips_[index]) {
    const Spot& spot = spots_[index][strip.first];
    if (spot.of_body) {
      out[strip.first] = hottest(spot, temperature);
    } else {
      hottest_of_layer(spot, temperature, out.subspan(strip.first, strip.count));
    }
  }
}

// ---- probes ------------------------------------------------------------------------------------

double View::at_radius(std::size_t station, double radius, const Moment& moment) const {
  const Column& column = columns_[station];
  const auto& t = moment.temperature;
  const auto& grid = network_.grid();
  const double surface_of_wire = ring_[column.first]->outer_radius;
  if (radius < surface_of_wire) {
    // Even heat made over the section: a parabola on top of the wire's one temperature.
    const double length = grid.station_face[station + 1] - grid.station_face[station];
    const double current = moment.electrical.current;
    const double made = current * current * network_.wire_resistance(station, t[station]) / length;
    const double part = radius / surface_of_wire;
    return t[station] +
           made * (1.0 - part * part) / (2.0 * two_pi * network_.conductivity(station));
  }
  if (column.first == column.last) {
    return t[station];
  }
  std::size_t i = column.first + 1;
  while (i < column.last && radius > ring_[i]->outer_radius) {
    ++i;
  }
  const Ring& ring = *ring_[i];
  const double centre = t[cells_[i]];
  if (radius <= ring.mean) {
    const double face = inner_face(i, 0, t);
    const double part = std::log(radius / ring.inner_radius) / ring.inner;
    return face + part * (centre - face);
  }
  const double face = i == column.last ? outermost(station, t) : inner_face(i + 1, 0, t);
  const double part = std::min(1.0, std::log(radius / ring.mean) / ring.outer);
  return centre + part * (face - centre);
}

double View::probe_part(const scenario::Probe& probe, const Moment& moment) const {
  const auto named = [&](const Part& part) { return part.name == probe.part; };
  const auto found = std::find_if(parts_.begin(), parts_.end(), named);
  if (found == parts_.end()) {
    // The innermost layer, whose hottest radius touches the conductor.
    scenario::Probe conductor = probe;
    conductor.of = scenario::Probe::Of::conductor;
    return this->probe(conductor, moment);
  }
  const auto& spots = spots_[static_cast<std::size_t>(found - parts_.begin())];
  std::size_t nearest = 0;
  for (std::size_t k = 1; k < spots.size(); ++k) {
    if (std::abs(found->position[k] - probe.position) <
        std::abs(found->position[nearest] - probe.position)) {
      nearest = k;
    }
  }
  return hottest(spots[nearest], moment.temperature);
}

/// The stations whose centres lie on either side of a place; one and the same at an end of the run.
std::pair<std::size_t, std::size_t> View::stations_beside(double position) const {
  const auto& centre = network_.grid().station_centre;
  const auto above = std::upper_bound(centre.begin(), centre.end(), position);
  const auto next = static_cast<std::size_t>(above - centre.begin());
  if (next == 0 || next == centre.size()) {
    const std::size_t end = next == 0 ? 0 : centre.size() - 1;
    return {end, end};
  }
  return {next - 1, next};
}

double View::probe(const scenario::Probe& probe, const Moment& moment) const {
  if (probe.of == scenario::Probe::Of::part) {
    return probe_part(probe, moment);
  }
  const auto value = [&](std::size_t j) {
    switch (probe.of) {
      case scenario::Probe::Of::surface:
        return outermost(j, moment.temperature);
      case scenario::Probe::Of::radius:
        return at_radius(j, probe.radius, moment);
      default:
        return moment.temperature[j];
    }
  };
  const auto [before, next] = stations_beside(probe.position);
  if (before == next) {
    return value(next);
  }
  const auto& centre = network_.grid().station_centre;
  const double part = (probe.position - centre[before]) / (centre[next] - centre[before]);
  // Beside a step of the outline only the station that holds the place can be read.
  const auto outer = [&](std::size_t j) { return ring_[columns_[j].last]->outer_radius; };
  if (probe.of != scenario::Probe::Of::conductor && outer(before) != outer(next)) {
    const bool in_next = probe.position >= network_.grid().station_face[next];
    const std::size_t own = in_next ? next : before;
    const std::size_t other = in_next ? before : next;
    if (probe.of == scenario::Probe::Of::surface || probe.radius > outer(other)) {
      return value(own);
    }
  }
  return std::lerp(value(before), value(next), part);
}

void View::probes(const Moment& moment, std::span<double> out) const {
  for (std::size_t k = 0; k < scenario_.probes.size(); ++k) {
    out[k] = probe(scenario_.probes[k], moment);
  }
}

}  // namespace ampstair::marching
