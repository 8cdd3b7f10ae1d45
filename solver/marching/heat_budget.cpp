// SPDX-License-Identifier: MIT
#include "marching/heat_budget.hpp"

#include <algorithm>

#include "grid/column.hpp"
#include "grid/sections.hpp"

namespace ampstair::marching {

namespace {

constexpr std::size_t none = grid::Grid::npos;

void name_part(const std::string& part, std::string& parts) {
  if (parts.empty()) {
    parts = part;
  } else if (parts != part && !parts.ends_with(", " + part)) {
    parts += ", " + part;
  }
}

}  // namespace

HeatBudget::HeatBudget(HeatNetwork& network, const scenario::Scenario& scenario)
    : network_(network), wire_radius_(grid::covering_radius(scenario.wire)) {
  list_faces();
  list_grips();
}

void HeatBudget::list_faces() {
  const auto& faces = network_.grid().faces;
  for (std::size_t f = 0; f < faces.size(); ++f) {
    face_of_.emplace_back(faces[f].cell, f);
  }
  std::sort(face_of_.begin(), face_of_.end());
}

void HeatBudget::list_grips() {
  const auto& bodies = network_.grid().bodies;
  for (std::size_t b = 0; b < bodies.size(); ++b) {
    for (const auto& tie : bodies[b].ties) {
      grips_.push_back({tie.station, b, grips_.size(), tie.face});
    }
  }
}

std::size_t HeatBudget::station_at(double position) const {
  const auto& face = network_.grid().station_face;
  const auto after = std::upper_bound(face.begin() + 1, face.end() - 1, position);
  return static_cast<std::size_t>(after - face.begin()) - 1;
}

void HeatBudget::take(std::span<const double> temperature, double time) {
  temperature_.assign(temperature.begin(), temperature.end());
  net_.assign(temperature.size(), 0.0);
  network_.set_time(time);
  network_.rates(temperature_, net_, false);
  given_ = network_.faces().given();
  const double current = network_.electrical(temperature_, time).current;
  square_ = current * current;
  const ReactingCells& reactions = network_.reactions();
  reacts_.assign(reactions.empty() ? 0 : temperature.size(), 0.0);
  for (std::size_t k = 0; k < reactions.size(); ++k) {
    const std::size_t cell = reactions.cell(k);
    reacts_[cell] = reactions.power(k, temperature_[cell]);
  }
}

/// What all faces of a cell give off together, W.
Faces::Given HeatBudget::given_by(std::size_t cell) const {
  Faces::Given sum;
  for (auto at =
           std::lower_bound(face_of_.begin(), face_of_.end(), std::pair(cell, std::size_t{0}));
       at != face_of_.end() && at->first == cell; ++at) {
    const Faces::Given& one = given_[at->second];
    sum.convected += one.convected;
    sum.radiated += one.radiated;
    sum.held += one.held;
  }
  return sum;
}

/// Behind a surface that the body shares with the air, the body brings a part of what the surface
/// gives off: what is left of the tie's heat goes into the body.
double HeatBudget::into_body(const Grip& grip) const {
  const double tie = network_.tie_heat()[grip.index];
  const SharedSurface* shared = grip.face == none ? nullptr : network_.faces().shared(grip.face);
  return shared == nullptr ? tie : tie - shared->head_heat;
}

double HeatBudget::gripped(std::size_t body) const {
  double sum = 0.0;
  for (const Grip& grip : grips_) {
    sum += grip.body == body ? into_body(grip) : 0.0;
  }
  return sum;
}

SliceBudget HeatBudget::slice(std::size_t station) const {
  const auto& grid = network_.grid();
  const auto& t = temperature_;
  SliceBudget budget;
  budget.position = grid.station_centre[station];
  budget.width = grid.station_face[station + 1] - grid.station_face[station];
  budget.conductor = t[station];
  budget.made = network_.made()[station];
  bool inside = true;
  for (const auto& at : grid::column_at(grid, station)) {
    const std::size_t c = at.cell;
    const bool wire = at.outer_radius <= wire_radius_ * (1.0 + 1e-9);
    if (inside && !wire) {
      const auto& patch = grid.patches[at.patch];
      const std::size_t below = row_below(grid, patch, at.row) + station - patch.first_station;
      budget.into_around = network_.inward()[c] * (t[below] - t[c]);
      inside = false;
    }
    const double reacts = reacts_.empty() ? 0.0 : reacts_[c];
    const bool begins = station == grid.patches[at.patch].first_station;
    const double from_start = begins ? 0.0 : network_.onward()[c - 1] * (t[c - 1] - t[c]);
    const double from_end = at.goes_on ? network_.onward()[c] * (t[c + 1] - t[c]) : 0.0;
    (wire ? budget.wire_from_start : budget.around_from_start) += from_start;
    (wire ? budget.wire_from_end : budget.around_from_end) += from_end;
    (wire ? budget.stored_in_wire : budget.stored_around) += net_[c] + reacts;
    budget.breakdown += reacts;
    const Faces::Given given = given_by(c);
    budget.convected += given.convected;
    budget.radiated += given.radiated;
    budget.held += given.held;
    if (!wire) {
      name_part(grid.media[grid.medium[c]].part, budget.around);
    }
  }
  for (const Grip& grip : grips_) {
    if (grip.station == station) {
      budget.into_body += into_body(grip);
      const grid::SideBody& body = grid.bodies[grip.body];
      const bool faced = grid.media[grid.medium[body.first_cell]].faced.has_value();
      name_part(faced ? "wood that it faces" : body.name, budget.body);
    }
  }
  for (double* watt : {&budget.made, &budget.breakdown, &budget.wire_from_start,
                       &budget.wire_from_end, &budget.around_from_start, &budget.around_from_end,
                       &budget.stored_in_wire, &budget.stored_around, &budget.convected,
                       &budget.radiated, &budget.held, &budget.into_body, &budget.into_around}) {
    *watt /= budget.width;
  }
  return budget;
}

double HeatBudget::cell_made(const grid::SideBody& body, std::size_t i) const {
  const double contact = i == body.tied ? body.contact_resistance : 0.0;
  return square_ * (contact + network_.body_resistance(body, i, temperature_[body.first_cell + i]));
}

/// Part by part of one body.
std::vector<BodyBudget> HeatBudget::parts_of(std::size_t index) const {
  const auto& grid = network_.grid();
  const grid::SideBody& body = grid.bodies[index];
  std::vector<BodyBudget> parts;
  for (std::size_t i = 0; i < body.cells; ++i) {
    const std::size_t cell = body.first_cell + i;
    const std::string& part = grid.media[grid.medium[cell]].part;
    if (i == 0 || parts.back().part != part) {
      BodyBudget next;
      next.body = body.name;
      next.part = part;
      next.position = body.position;
      if (i > 0) {
        next.comes_in = network_.link_conductance(body.chain[i - 1], cell - 1, cell) *
                        (temperature_[cell - 1] - temperature_[cell]);
        parts.back().passed_on = next.comes_in;
      }
      parts.push_back(std::move(next));
    }
    BodyBudget& budget = parts.back();
    const Faces::Given given = given_by(cell);
    budget.convected += given.convected;
    budget.radiated += given.radiated;
    budget.held += given.held;
    budget.made += cell_made(body, i);
    budget.stored += net_[cell] + (reacts_.empty() ? 0.0 : reacts_[cell]);
    budget.comes_in += i == body.tied ? gripped(index) : 0.0;
  }
  return parts;
}

std::vector<BodyBudget> HeatBudget::bodies() const {
  std::vector<BodyBudget> all;
  std::vector<double> begins;  // m, of those with one name
  for (std::size_t b = 0; b < network_.grid().bodies.size(); ++b) {
    for (BodyBudget& part : parts_of(b)) {
      const auto known = std::find_if(all.begin(), all.end(), [&](const BodyBudget& one) {
        return one.body == part.body && one.part == part.part;
      });
      if (known == all.end()) {
        begins.push_back(part.position);
        all.push_back(std::move(part));
        continue;
      }
      known->position =
          0.5 * (begins[static_cast<std::size_t>(known - all.begin())] + part.position);
      for (double BodyBudget::*flow :
           {&BodyBudget::made, &BodyBudget::comes_in, &BodyBudget::passed_on, &BodyBudget::stored,
            &BodyBudget::convected, &BodyBudget::radiated, &BodyBudget::held}) {
        *known.*flow += part.*flow;
      }
    }
  }
  return all;
}

}  // namespace ampstair::marching
