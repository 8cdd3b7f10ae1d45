// SPDX-License-Identifier: MIT
#include "verbs/grid_error.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

#include "grid/column.hpp"
#include "grid/grid.hpp"

namespace ampstair::verbs {

namespace {

using Row = std::vector<std::vector<double>>;

constexpr double coarser = 0.5;  // scale of the coarse grid
constexpr double order_away = 2.0;

// As far as the conductor carries what is wrong at a corner: sqrt(k A / (W/m/K lost)) of house wire
// is 6 to 8 cm (computed here).
constexpr double reach_of_corner = 0.1;  // m

// Roache's grid convergence index: a factor of safety of 3 where two grids are compared and the
// order is not found from them (1.25 with three). Verification and Validation in Computational
// Science and Engineering, 1998 (from memory); the two factors seen quoted in documentation of
// programs that calculate the index.
constexpr double factor_of_safety = 3.0;

/// A row for every history, one value per place.
Row row_for(const std::vector<std::vector<Place>>& places) {
  Row row;
  for (const auto& of_history : places) {
    row.emplace_back(of_history.size());
  }
  return row;
}

class KeepRegularRows final : public marching::Observer {
 public:
  KeepRegularRows(Temperatures& temperatures, const std::function<bool(double)>& keep_going,
                  CoarseMarch& kept)
      : temperatures_(temperatures), keep_going_(keep_going), kept_(kept) {
    kept_.places = temperatures.places();
  }

  void moment(const marching::Moment& moment) override {
    if (moment.regular) {
      kept_.times.push_back(moment.time);
      kept_.temperature.push_back(row_for(kept_.places));
      temperatures_.at(moment, kept_.temperature.back());
    }
  }
  bool advanced(double time) override { return keep_going_(time); }
  [[nodiscard]] std::span<const marching::Stretch> reads() const override {
    return temperatures_.reads();
  }

 private:
  Temperatures& temperatures_;
  const std::function<bool(double)>& keep_going_;
  CoarseMarch& kept_;
};

double order_at(double position, const std::vector<Corner>& corners) {
  double order = order_away;
  for (const Corner& corner : corners) {
    if (std::abs(corner.position - position) < reach_of_corner) {
      order = std::min(order, corner.order);
    }
  }
  return order;
}

/// The cell of a column in which a radius lies, or begins.
std::size_t cell_above(const std::vector<grid::ColumnCell>& column, double radius) {
  const auto above = [&](const grid::ColumnCell& cell) {
    return cell.outer_radius > radius * (1.0 + 1e-9);
  };
  return std::find_if(column.begin(), column.end(), above)->cell;
}

}  // namespace

std::vector<Corner> corners_of(const marching::HeatNetwork& network) {
  const grid::Grid& grid = network.grid();
  std::vector<Corner> corners;
  for (std::size_t j = 1; j < grid.stations(); ++j) {
    if (grid.top_patch[j] == grid.top_patch[j - 1]) {
      continue;
    }
    auto lower = grid::column_at(grid, j - 1);
    auto higher = grid::column_at(grid, j);
    if (lower.back().outer_radius > higher.back().outer_radius) {
      std::swap(lower, higher);
    }
    const double corner = lower.back().outer_radius;
    const double ratio =
        network.conductivity(lower.back().cell) / network.conductivity(cell_above(higher, corner));
    const double order = 2.0 * (2.0 / std::numbers::pi) * std::atan(std::sqrt(1.0 + 2.0 * ratio));
    corners.push_back({grid.station_face[j], std::min(order, order_away)});
  }
  return corners;
}

CoarseMarch march_coarse(const scenario::Scenario& scenario,
                         const std::function<bool(double time)>& keep_going) {
  const grid::Grid grid = grid::build(scenario, coarser);
  marching::HeatNetwork network(grid, scenario);
  marching::View view(network, scenario);
  Temperatures temperatures(scenario, network, view);
  CoarseMarch kept;
  KeepRegularRows observer(temperatures, keep_going, kept);
  kept.summary = marching::march(scenario, network, observer);
  return kept;
}

GridError::Between GridError::between(const std::vector<Place>& coarse, const Place& place) {
  std::size_t first = coarse.size();
  std::size_t last = 0;
  for (std::size_t k = 0; k < coarse.size(); ++k) {
    if (coarse[k].side == place.side) {
      first = std::min(first, k);
      last = k;
    }
  }
  if (first == coarse.size()) {
    const auto nearer = [&](const Place& a, const Place& b) {
      return std::abs(a.position - place.position) < std::abs(b.position - place.position);
    };
    const auto nearest = std::min_element(coarse.begin(), coarse.end(), nearer);
    first = last = static_cast<std::size_t>(nearest - coarse.begin());
  }
  while (first + 1 < last && coarse[first + 1].position <= place.position) {
    ++first;
  }
  last = std::min(first + 1, last);
  const double length = coarse[last].position - coarse[first].position;
  return {first, last, length > 0.0 ? (place.position - coarse[first].position) / length : 0.0};
}

GridError::GridError(const std::vector<std::vector<Place>>& fine, CoarseMarch coarse,
                     const std::vector<Corner>& corners)
    : fine_(fine), coarse_(std::move(coarse)), largest_(fine.size(), 0.0) {
  for (std::size_t h = 0; h < fine_.size(); ++h) {
    auto& of_history = between_.emplace_back();
    auto& per_difference = per_difference_.emplace_back();
    for (const Place& place : fine_[h]) {
      of_history.push_back(between(coarse_.places[h], place));
      const double order = order_at(place.position, corners);
      per_difference.push_back(factor_of_safety / (std::pow(1.0 / coarser, order) - 1.0));
    }
  }
}

double GridError::largest() const {
  return *std::max_element(largest_.begin(), largest_.end());
}

bool GridError::has_row_at(double time) {
  constexpr double same = 1e-9;
  while (row_ < coarse_.times.size() && coarse_.times[row_] < time * (1.0 - same)) {
    ++row_;
  }
  return row_ < coarse_.times.size() && coarse_.times[row_] <= time * (1.0 + same);
}

void GridError::at(double time, std::span<const std::vector<double>> temperature,
                   std::span<std::vector<double>> bars) {
  const bool known = has_row_at(time);
  for (std::size_t h = 0; h < fine_.size(); ++h) {
    if (known) {
      of_history(h, temperature[h], bars[h]);
    } else {
      std::fill(bars[h].begin(), bars[h].end(), std::numeric_limits<double>::quiet_NaN());
    }
  }
}

void GridError::of_history(std::size_t h, std::span<const double> fine, std::span<double> bars) {
  const auto& coarse = coarse_.temperature[row_][h];
  alone_.resize(fine.size());
  for (std::size_t k = 0; k < fine.size(); ++k) {
    const Between& at = between_[h][k];
    const double there = std::lerp(coarse[at.first], coarse[at.second], at.part);
    alone_[k] = per_difference_[h][k] * std::abs(there - fine[k]);
  }
  const auto& places = fine_[h];
  for (std::size_t k = 0; k < fine.size(); ++k) {
    bars[k] = alone_[k];
    if (k > 0 && places[k - 1].side == places[k].side) {
      bars[k] = std::max(bars[k], alone_[k - 1]);
    }
    if (k + 1 < places.size() && places[k + 1].side == places[k].side) {
      bars[k] = std::max(bars[k], alone_[k + 1]);
    }
    largest_[h] = std::max(largest_[h], bars[k]);
  }
}

}  // namespace ampstair::verbs
