// SPDX-License-Identifier: MIT
#include "marching/network.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "grid/column.hpp"
#include "heat/constants.hpp"
#include "heat/gap.hpp"

namespace ampstair::marching {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double lookup_begin = 150.0;     // K
constexpr std::size_t lookup_size = 1751;  // to 1900 K, one point per kelvin
constexpr double massless_limit = 2e4;     // J/m3/K: gases lie below, everything else far above

}  // namespace

Lookup::Lookup(const materials::Curve& curve) {
  value_.reserve(lookup_size);
  for (std::size_t i = 0; i < lookup_size; ++i) {
    value_.push_back(curve.at(lookup_begin + static_cast<double>(i)));
  }
}

double Lookup::at(double kelvin) const {
  const double x = std::clamp(kelvin - lookup_begin, 0.0, static_cast<double>(lookup_size - 2));
  const auto i = static_cast<std::size_t>(x);
  return value_[i] + (x - static_cast<double>(i)) * (value_[i + 1] - value_[i]);
}

double Lookup::slope_at(double kelvin) const {
  const double x = std::clamp(kelvin - lookup_begin, 0.0, static_cast<double>(lookup_size - 2));
  const auto i = static_cast<std::size_t>(x);
  return value_[i + 1] - value_[i];
}

HeatNetwork::HeatNetwork(const grid::Grid& grid, const scenario::Scenario& scenario)
    : grid_(grid), scenario_(scenario), faces_(grid, scenario) {
  describe_media(scenario);
  capacity_.assign(grid.cells, 1.0);
  conductivity_.assign(grid.cells, 0.0);
  inward_.assign(grid.cells, 0.0);
  onward_.assign(grid.cells, 0.0);
  massless_.assign(grid.cells, false);
  for (std::size_t c = 0; c < grid.cells; ++c) {
    const Medium& medium = media_[grid.medium[c]];
    conductivity_[c] = medium.fixed_conductivity;
    if (grid.volume[c] > 0.0) {
      capacity_[c] = medium.heat_per_volume * grid.volume[c];
      massless_[c] = medium.heat_per_volume < massless_limit;
      if (medium.varies) {
        varying_cells_.push_back(c);
      }
      if (medium.enthalpy) {
        enthalpy_cells_.push_back(c);
      }
    }
  }
  for (std::size_t p = 0; p < grid.patches.size(); ++p) {
    const grid::Patch& patch = grid.patches[p];
    for (std::size_t i = 0; i < patch.rows; ++i) {
      update_row(patch, i);
      const auto varies = [&](std::size_t row, std::size_t count) {
        return std::any_of(grid.medium.begin() + static_cast<std::ptrdiff_t>(row),
                           grid.medium.begin() + static_cast<std::ptrdiff_t>(row + count),
                           [&](std::size_t m) { return media_[m].varies; });
      };
      if (varies(patch.row(i), patch.stations) ||
          (p > 0 && varies(row_below(patch, i), patch.stations))) {
        varying_rows_.push_back({p, i});
      }
    }
  }
  source_slope_.assign(grid.stations(), 0.0);
  // A joint is metal too: its resistance, given at 20 degC, rises with the wire's.
  const double cold = media_[0].resistivity.at(heat::zero_celsius + 20.0);
  for (std::size_t j = 0; j < grid.stations(); ++j) {
    const double length = grid.station_face[j + 1] - grid.station_face[j];
    metres_per_area_.push_back(length / grid.conductor_area + grid.joint_resistance[j] / cold);
  }
}

void HeatNetwork::describe_media(const scenario::Scenario& scenario) {
  for (const grid::Medium& m : grid_.media) {
    const materials::Material gas =
        m.gap ? heat::gap_air({m.gap->inner_radius, m.gap->outer_radius, m.gap->inner_emissivity,
                               m.gap->outer_emissivity})
              : materials::Material{};
    const materials::Material& material = m.gap ? gas : *m.material;
    Medium medium;
    medium.varies = !material.conductivity.constant();
    medium.fixed_conductivity = material.conductivity.at(scenario.start_temperature);
    if (medium.varies) {
      medium.conductivity = Lookup(material.conductivity);
    }
    double capacity = material.heat_capacity.at(scenario.start_temperature);
    if (!material.heat_capacity.constant()) {
      medium.enthalpy.emplace(material.heat_capacity);
      capacity = medium.enthalpy->reference_capacity();
    }
    medium.heat_per_volume = material.density * capacity;
    if (!material.resistivity.value.empty()) {
      medium.resistivity = Lookup(material.resistivity);
    }
    media_.push_back(std::move(medium));
  }
  const scenario::Lead& lead = scenario.supply.lead;
  if (lead.metal) {
    double modelled = 0.0;
    for (const auto& body : grid_.bodies) {
      for (const double shape : body.metres_per_area) {
        modelled += shape;
      }
    }
    unmodelled_leads_ = lead.metal->resistivity.at(scenario.start_temperature) *
                        std::max(0.0, lead.length / lead.area - modelled);
  }
}

std::vector<double> HeatNetwork::uniform(double kelvin) const {
  std::vector<double> u(grid_.cells, kelvin);
  for (const std::size_t c : enthalpy_cells_) {
    u[c] = media_[grid_.medium[c]].enthalpy->variable(kelvin);
  }
  return u;
}

void HeatNetwork::temperatures(std::span<const double> u, std::span<double> temperature,
                               std::span<double> slope) const {
  if (u.data() != temperature.data()) {
    std::copy(u.begin(), u.end(), temperature.begin());
  }
  for (const std::size_t c : enthalpy_cells_) {
    const auto state = media_[grid_.medium[c]].enthalpy->at(u[c]);
    temperature[c] = state.temperature;
    slope[c] = state.slope;
  }
}

double HeatNetwork::temperature_of(std::size_t cell, double u) const {
  const auto& enthalpy = media_[grid_.medium[cell]].enthalpy;
  return enthalpy ? enthalpy->at(u).temperature : u;
}

// ---- conduction -------------------------------------------------------------------------------

std::size_t HeatNetwork::row_below(const grid::Patch& patch, std::size_t row) const {
  if (row > 0) {
    return patch.row(row - 1);
  }
  const grid::Patch& parent = grid_.patches[patch.parent];
  return parent.row(parent.rows - 1) + patch.first_station - parent.first_station;
}

double HeatNetwork::outer_path(const grid::Patch& patch, std::size_t row) const {
  const double inner = patch.radius[row];
  const double outer = patch.radius[row + 1];
  // The conductor is at one temperature all over its section.
  return inner > 0.0 ? std::log(outer) - grid::log_mean_radius(inner, outer) : 0.0;
}

double HeatNetwork::inner_path(const grid::Patch& patch, std::size_t row) const {
  return grid::log_mean_radius(patch.radius[row], patch.radius[row + 1]) -
         std::log(patch.radius[row]);
}

void HeatNetwork::update_row(const grid::Patch& patch, std::size_t row) {
  const double* face = grid_.station_face.data() + patch.first_station;
  const std::size_t first = patch.row(row);
  const double ring =
      pi * (patch.radius[row + 1] * patch.radius[row + 1] - patch.radius[row] * patch.radius[row]);
  for (std::size_t j = 0; j + 1 < patch.stations; ++j) {
    const double here = (face[j + 1] - face[j]) / conductivity_[first + j];
    const double next = (face[j + 2] - face[j + 1]) / conductivity_[first + j + 1];
    onward_[first + j] = 2.0 * ring / (here + next);
  }
  if (&patch == &grid_.patches.front()) {
    return;
  }
  const std::size_t below = row_below(patch, row);
  const grid::Patch& host = row > 0 ? patch : grid_.patches[patch.parent];
  const double from = outer_path(host, row > 0 ? row - 1 : host.rows - 1);
  const double to = inner_path(patch, row);
  for (std::size_t j = 0; j < patch.stations; ++j) {
    inward_[first + j] = 2.0 * pi * (face[j + 1] - face[j]) /
                         (from / conductivity_[below + j] + to / conductivity_[first + j]);
  }
}

void HeatNetwork::update_conductivities(std::span<const double> temperature) {
  for (const std::size_t c : varying_cells_) {
    conductivity_[c] = media_[grid_.medium[c]].conductivity.at(temperature[c]);
  }
  for (const RowRef& row : varying_rows_) {
    update_row(grid_.patches[row.patch], row.row);
  }
}

double HeatNetwork::link_conductance(const grid::Link& link, std::size_t a, std::size_t b) const {
  return 1.0 / (link.shape_a / conductivity_[a] + link.shape_b / conductivity_[b] + link.contact);
}

void HeatNetwork::conduct(std::span<const double> temperature, std::span<double> net) const {
  const Kernels& loops = kernels();
  for (std::size_t p = 0; p < grid_.patches.size(); ++p) {
    const grid::Patch& patch = grid_.patches[p];
    for (std::size_t i = 0; i < patch.rows; ++i) {
      const std::size_t row = patch.row(i);
      loops.conduct_along(patch.stations, &temperature[row], &onward_[row], &net[row]);
      if (p > 0) {
        const std::size_t below = row_below(patch, i);
        loops.conduct_out(patch.stations, &temperature[row], &temperature[below], &inward_[row],
                          &net[row], &net[below]);
      }
    }
  }
}

void HeatNetwork::conduct_bodies(std::span<const double> temperature, std::span<double> net) const {
  const auto flow = [&](std::size_t a, std::size_t b, const grid::Link& link) {
    const double heat = link_conductance(link, a, b) * (temperature[a] - temperature[b]);
    net[a] -= heat;
    net[b] += heat;
  };
  for (const auto& body : grid_.bodies) {
    std::fill_n(net.begin() + static_cast<std::ptrdiff_t>(body.first_cell), body.cells, 0.0);
    for (std::size_t i = 0; i + 1 < body.cells; ++i) {
      flow(body.first_cell + i, body.first_cell + i + 1, body.chain[i]);
    }
    for (const auto& tie : body.ties) {
      flow(tie.cell, body.first_cell + body.tied, tie.link);
    }
  }
}

// ---- heat made and lost -----------------------------------------------------------------------

double HeatNetwork::wire_resistance(std::size_t station, double kelvin) const {
  return media_[0].resistivity.at(kelvin) * metres_per_area_[station];
}

HeatNetwork::Loop HeatNetwork::loop(std::span<const double> temperature) const {
  Loop loop;
  for (std::size_t j = 0; j < grid_.stations(); ++j) {
    loop.wire += wire_resistance(j, temperature[j]);
  }
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
  return loop;
}

Electrical HeatNetwork::drive_through(const Loop& loop) const {
  Electrical e;
  switch (drive_.kind) {
    case scenario::Step::Kind::hold_current:
      e.asked = drive_.level;
      break;
    case scenario::Step::Kind::hold_voltage:
      e.asked = drive_.level / loop.whole;
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

Electrical HeatNetwork::electrical(std::span<const double> temperature) const {
  return drive_through(loop(temperature));
}

double HeatNetwork::make(std::span<const double> temperature, std::span<double> net,
                         bool linearise) {
  const double current = electrical(temperature).current;
  const double square = current * current;
  double made = 0.0;
  for (std::size_t j = 0; j < grid_.stations(); ++j) {
    const double heat = square * wire_resistance(j, temperature[j]);
    net[j] += heat;
    made += heat;
    if (linearise) {
      source_slope_[j] =
          square * media_[0].resistivity.slope_at(temperature[j]) * metres_per_area_[j];
    }
  }
  for (const auto& body : grid_.bodies) {
    const double contact = square * body.contact_resistance;
    net[body.first_cell + body.tied] += contact;
    made += contact;
    for (std::size_t i = 0; i < body.cells; ++i) {
      if (body.metres_per_area[i] > 0.0) {
        const std::size_t c = body.first_cell + i;
        const double heat = square * media_[grid_.medium[c]].resistivity.at(temperature[c]) *
                            body.metres_per_area[i];
        net[c] += heat;
        made += heat;
      }
    }
  }
  return made;
}

Totals HeatNetwork::rates(std::span<const double> temperature, std::span<double> net,
                          bool linearise) {
  if (!varying_cells_.empty()) {
    update_conductivities(temperature);
  }
  conduct(temperature, net);
  conduct_bodies(temperature, net);
  Totals totals;
  totals.lost = faces_.exchange(temperature, conductivity_, net, linearise);
  totals.made = make(temperature, net, linearise);
  return totals;
}

}  // namespace ampstair::marching
