// SPDX-License-Identifier: MIT
#include "marching/levels.hpp"

#include <algorithm>
#include <string>

namespace ampstair::marching {

Levels::Levels(const HeatNetwork& network, const View& view, const scenario::Scenario& scenario)
    : Levels(network, view, scenario.wire, scenario.watch) {}

Levels::Levels(const HeatNetwork& network, const View& view, const scenario::Wire& wire,
               const std::vector<watch::Item>& items)
    : network_(network), view_(view), wire_(wire) {
  for (std::size_t i = 0; i < items.size(); ++i) {
    add(items[i], i);
  }
  std::size_t widest = network.grid().stations();
  for (Part& part : parts_) {
    list_cells(part);
    if (part.where == Where::layer_or_body) {
      widest = std::max(widest, view.parts()[part.of_view].position.size());
    }
    widest = std::max(widest, part.position.size());
  }
  places_.resize(widest);
}

void Levels::list_cells(Part& part) const {
  switch (part.where) {
    case Where::conductor:
      for (std::size_t j = 0; j < network_.grid().stations(); ++j) {
        part.cells.push_back(j);
      }
      break;
    case Where::surface:
      view_.add_cells_of_surfaces(part.cells);
      break;
    case Where::layer_or_body:
      view_.add_cells_of_part(part.of_view, part.cells);
      break;
    case Where::cells:
      return;  // found in order
  }
  std::sort(part.cells.begin(), part.cells.end());
  part.cells.erase(std::unique(part.cells.begin(), part.cells.end()), part.cells.end());
}

void Levels::add(const watch::Item& item, std::size_t index) {
  Part part;
  if (item.kind == watch::Item::Kind::dose || !find(item.part, part)) {
    return;
  }
  const auto set = [&](double kelvin, Event::Bound bound) {
    levels_.push_back({number_of(part), kelvin, index, bound});
  };
  if (item.kind == watch::Item::Kind::char_depth) {
    set(item.isotherm, Event::Bound::best);
    return;
  }
  set(item.limit, Event::Bound::best);
  if (item.low) {
    set(*item.low, Event::Bound::low);
  }
  if (item.high) {
    set(*item.high, Event::Bound::high);
  }
}

bool Levels::find(const std::string& name, Part& part) const {
  const auto& known = view_.parts();
  const auto found = std::find_if(known.begin(), known.end(),
                                  [&](const View::Part& one) { return one.name == name; });
  if (found != known.end()) {
    part = {Where::layer_or_body, static_cast<std::size_t>(found - known.begin()), {}};
    return true;
  }
  if (name == "surface") {
    part = {Where::surface, 0, {}};
    return true;
  }
  // The innermost layer is as hot as the conductor where it touches it.
  const auto& layers = wire_.layers;
  const bool covering = !layers.empty() && (name == "covering" || name == layers.front().part);
  part = {Where::conductor, 0, {}};
  return name == "conductor" || covering || find_cells(name, part);
}

/// What fills cells but is no part that a View reads: lugs, leads, the gas in a gap.
bool Levels::find_cells(const std::string& name, Part& part) const {
  const auto& grid = network_.grid();
  const auto is_of_part = [&](std::size_t cell) {
    return grid.volume[cell] > 0.0 && grid.media[grid.medium[cell]].part == name;
  };
  part = {Where::cells, 0, {}, name};
  for (const auto& patch : grid.patches) {
    for (std::size_t i = 0; i < patch.rows; ++i) {
      for (std::size_t j = 0; j < patch.stations; ++j) {
        if (is_of_part(patch.row(i) + j)) {
          part.cells.push_back(patch.row(i) + j);
          part.position.push_back(grid.station_centre[patch.first_station + j]);
        }
      }
    }
  }
  for (const auto& body : grid.bodies) {
    for (std::size_t c = body.first_cell; c < body.first_cell + body.cells; ++c) {
      if (is_of_part(c)) {
        part.cells.push_back(c);
        part.position.push_back(body.position);
      }
    }
  }
  return !part.cells.empty();
}

std::size_t Levels::number_of(const Part& part) {
  const auto found = std::find_if(parts_.begin(), parts_.end(), [&](const Part& one) {
    return one.where == part.where && one.of_view == part.of_view && one.of_cells == part.of_cells;
  });
  const auto number = static_cast<std::size_t>(found - parts_.begin());
  if (found == parts_.end()) {
    parts_.push_back(part);
  }
  return number;
}

Levels::Hottest Levels::hottest(std::size_t part, std::span<const double> temperature) {
  const Part& asked = parts_[part];
  const std::vector<double>* position = &network_.grid().station_centre;
  std::span<const double> at = temperature.first(position->size());
  if (asked.where == Where::surface) {
    const auto places = std::span(places_).first(position->size());
    view_.surfaces(temperature, places);
    at = places;
  } else if (asked.where == Where::layer_or_body) {
    position = &view_.parts()[asked.of_view].position;
    const auto places = std::span(places_).first(position->size());
    view_.part(asked.of_view, temperature, places);
    at = places;
  } else if (asked.where == Where::cells) {
    position = &asked.position;
    const auto places = std::span(places_).first(position->size());
    std::transform(asked.cells.begin(), asked.cells.end(), places.begin(),
                   [&](std::size_t cell) { return temperature[cell]; });
    at = places;
  }
  const auto hottest = std::max_element(at.begin(), at.end());
  return {*hottest, (*position)[static_cast<std::size_t>(hottest - at.begin())]};
}

}  // namespace ampstair::marching
