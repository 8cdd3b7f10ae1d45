// SPDX-License-Identifier: MIT
#include "peer_jacobian.hpp"

#include <algorithm>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/cuthill_mckee_ordering.hpp>
#include <iterator>
#include <numeric>
#include <utility>

namespace ampstair::tests {

namespace {

constexpr std::size_t none = grid::Grid::npos;

/// Every cell but the padding, with a place to sort it by.
struct Placed {
  std::size_t cell;
  double station, radius;
};

std::vector<Placed> placed_cells(const grid::Grid& grid) {
  std::vector<Placed> cells;
  for (const auto& patch : grid.patches) {
    for (std::size_t i = 0; i < patch.rows; ++i) {
      for (std::size_t j = 0; j < patch.stations; ++j) {
        cells.push_back({patch.row(i) + j, static_cast<double>(patch.first_station + j),
                         0.5 * (patch.radius[i] + patch.radius[i + 1])});
      }
    }
  }
  for (const auto& body : grid.bodies) {
    double station = 0.0;
    for (const auto& tie : body.ties) {
      station += static_cast<double>(tie.station) / static_cast<double>(body.ties.size());
    }
    for (std::size_t i = 0; i < body.cells; ++i) {
      cells.push_back({body.first_cell + i, station, 1.0 + static_cast<double>(i)});
    }
  }
  return cells;
}

Unknowns in_order(const grid::Grid& grid, std::vector<std::size_t> cells) {
  Unknowns unknowns;
  unknowns.cell = std::move(cells);
  unknowns.index.assign(grid.cells, none);
  for (std::size_t k = 0; k < unknowns.cell.size(); ++k) {
    unknowns.index[unknowns.cell[k]] = k;
  }
  return unknowns;
}

std::vector<std::size_t> cells_of(const std::vector<Placed>& placed) {
  std::vector<std::size_t> cells;
  std::transform(placed.begin(), placed.end(), std::back_inserter(cells),
                 [](const Placed& p) { return p.cell; });
  return cells;
}

Unknowns station_by_station(const grid::Grid& grid) {
  auto placed = placed_cells(grid);
  std::sort(placed.begin(), placed.end(), [](const Placed& a, const Placed& b) {
    return std::pair(a.station, a.radius) < std::pair(b.station, b.radius);
  });
  return in_order(grid, cells_of(placed));
}

Unknowns reverse_cuthill_mckee(const grid::Grid& grid, const std::vector<Conduction>& pairs,
                               const Unknowns& start) {
  using Graph =
      boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS,
                            boost::property<boost::vertex_color_t, boost::default_color_type,
                                            boost::property<boost::vertex_degree_t, int>>>;
  Graph graph(start.size());
  for (const Conduction& pair : pairs) {
    boost::add_edge(start.index[pair.a], start.index[pair.b], graph);
  }
  std::vector<std::size_t> order;
  boost::cuthill_mckee_ordering(graph, std::back_inserter(order),
                                boost::get(boost::vertex_color, graph),
                                boost::make_degree_map(graph));
  std::reverse(order.begin(), order.end());
  for (std::size_t& k : order) {
    k = start.cell[k];
  }
  return in_order(grid, std::move(order));
}

}  // namespace

std::vector<Conduction> conductions(const marching::HeatNetwork& network) {
  const auto& grid = network.grid();
  std::vector<Conduction> pairs;
  for (std::size_t p = 0; p < grid.patches.size(); ++p) {
    const auto& patch = grid.patches[p];
    for (std::size_t i = 0; i < patch.rows; ++i) {
      const std::size_t first = patch.row(i);
      for (std::size_t j = 0; j + 1 < patch.stations; ++j) {
        pairs.push_back(
            {Conduction::Kind::onward, first + j, first + j + 1, nullptr, nullptr, nullptr});
      }
      for (std::size_t j = 0; p > 0 && j < patch.stations; ++j) {
        const std::size_t below = marching::row_below(grid, patch, i) + j;
        pairs.push_back({Conduction::Kind::inward, first + j, below, nullptr, nullptr, nullptr});
      }
    }
  }
  for (const auto& body : grid.bodies) {
    for (std::size_t i = 0; i + 1 < body.cells; ++i) {
      const std::size_t cell = body.first_cell + i;
      pairs.push_back({Conduction::Kind::link, cell, cell + 1, &body.chain[i], nullptr, nullptr});
    }
    for (const auto& tie : body.ties) {
      pairs.push_back(
          {Conduction::Kind::tie, tie.cell, body.first_cell + body.tied, nullptr, &body, &tie});
    }
  }
  return pairs;
}

Unknowns unknowns_as_laid(const marching::HeatNetwork& network) {
  auto cells = cells_of(placed_cells(network.grid()));
  std::sort(cells.begin(), cells.end());
  return in_order(network.grid(), std::move(cells));
}

Unknowns unknowns_in_band(const marching::HeatNetwork& network) {
  const auto pairs = conductions(network);
  auto stations = station_by_station(network.grid());
  auto narrowed = reverse_cuthill_mckee(network.grid(), pairs, stations);
  return half_bandwidth(pairs, narrowed) < half_bandwidth(pairs, stations) ? narrowed : stations;
}

std::size_t half_bandwidth(const std::vector<Conduction>& pairs, const Unknowns& unknowns) {
  std::size_t widest = 0;
  for (const Conduction& pair : pairs) {
    const std::size_t a = unknowns.index[pair.a];
    const std::size_t b = unknowns.index[pair.b];
    widest = std::max(widest, a > b ? a - b : b - a);
  }
  return widest;
}

double HeatJacobian::conductance_of(const Conduction& pair) const {
  switch (pair.kind) {
    case Conduction::Kind::onward:
      return network_.onward()[pair.a];
    case Conduction::Kind::inward:
      return network_.inward()[pair.a];
    case Conduction::Kind::link:
      return network_.link_conductance(*pair.link, pair.a, pair.b);
    case Conduction::Kind::tie:
      break;
  }
  return network_.tie_slope(*pair.body, *pair.tie).conductance;
}

void HeatJacobian::fill(const std::vector<double>& slope, double* storage) {
  const auto& grid = network_.grid();
  const auto& capacity = network_.capacity();
  std::fill(diagonal_.begin(), diagonal_.end(), 0.0);
  for (std::size_t k = 0; k < pairs_.size(); ++k) {
    const auto [a, b] = std::pair(pairs_[k].a, pairs_[k].b);
    const double conductance = conductance_of(pairs_[k]);
    storage[pair_place_[k].ab] += conductance * slope[b] / capacity[a];
    storage[pair_place_[k].ba] += conductance * slope[a] / capacity[b];
    diagonal_[a] -= conductance;
    diagonal_[b] -= conductance;
  }
  for (std::size_t f = 0; f < grid.faces.size(); ++f) {
    diagonal_[grid.faces[f].cell] -= network_.face_slope()[f];
  }
  for (const auto& shared : network_.shared_surfaces()) {
    diagonal_[shared.head] -= shared.head_slope;
  }
  for (std::size_t j = 0; j < grid.stations(); ++j) {
    diagonal_[j] += network_.source_slope()[j];
  }
  for (const auto& [cell, at] : diagonal_place_) {
    storage[at] += diagonal_[cell] * slope[cell] / capacity[cell];
  }
}

}  // namespace ampstair::tests
