// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "marching/exposed_surfaces.hpp"
#include "marching/march.hpp"
#include "marching/network.hpp"

namespace ampstair::marching {

/// Reads from a march's cell temperatures what people ask for: surfaces, the hottest radius of each
/// part, temperatures at given places. All temperatures in K.
class View {
 public:
  View(const HeatNetwork& network, const scenario::Scenario& scenario);

  /// Outermost surface of the run at every station; `out` has one value per station. Remembers
  /// what it found, to be quicker at the next moment.
  void surfaces(const Moment& moment, std::span<double> out);
  /// The same at temperatures that are no moment's, in the network's present surroundings; slower.
  void surfaces(std::span<const double> temperature, std::span<double> out) const;

  /// A part that is not the conductor, where it exists. The innermost layer on the conductor is as
  /// hot as the conductor at its inner face and has no entry.
  struct Part {
    std::string name;
    std::vector<double> position;  ///< m along the run, one per spot, ascending
    /// Index per spot into Grid::bodies, behind them into Grid::bays; or npos: the part lies all
    /// along the run there, round the wire or before it.
    std::vector<std::size_t> side_body;
    bool everywhere = false;  ///< one spot per station
  };
  [[nodiscard]] const std::vector<Part>& parts() const { return parts_; }
  /// Hottest temperature of a part over its radius (or depth) at each of its spots.
  void part(std::size_t index, std::span<const double> temperature, std::span<double> out) const;

  /// Appends the cells that surfaces(), or part(), reads; a cell may come more than once.
  void add_cells_of_surfaces(std::vector<std::size_t>& cells) const;
  void add_cells_of_part(std::size_t index, std::vector<std::size_t>& cells) const;

  /// All cells that surfaces(), part() and probes() read, with the conductor and the side bodies.
  [[nodiscard]] std::vector<Stretch> cells_read() const;

  /// Temperatures of the scenario's probes; `out` has one value per probe.
  void probes(const Moment& moment, std::span<double> out) const;

 private:
  /// One row of a patch, as every station's column crosses it.
  struct Ring {
    double inner_radius, outer_radius;  // m
    double mean;                        // m, radius at which a cell's temperature holds
    double inner, outer;                // 1/m: paths from cell to face per 2 pi k dz
  };
  /// Where the cells of one station are in cells_ and rings_, from the conductor outwards.
  struct Column {
    std::size_t first = 0, last = 0;
  };
  struct Spot {
    std::size_t first = 0, last = 0;  // range in cells_
    std::size_t body = 0, cell = 0;   // for side bodies: cell of the grid
    bool of_body = false, towards_previous = false;
    bool along = false;  // of a body that goes on from station to station
  };
  /// Spots of a layer at neighbouring stations, in the same rows of the grid; or one spot of a
  /// body.
  struct Strip {
    std::size_t first = 0, count = 0;
  };

  void find_ties();
  void build_columns();
  void build_parts(const scenario::Scenario& scenario);
  void build_strips(const std::vector<Spot>& spots);
  void add_spot(const std::string& part, const Spot& spot, double position);
  [[nodiscard]] double outermost(std::size_t station, std::span<const double> t) const;
  /// Face below a place of cells_, or that of the station so many ahead in the same rows.
  [[nodiscard]] double inner_face(std::size_t place, std::size_t ahead,
                                  std::span<const double> t) const;
  [[nodiscard]] bool follows(const Spot& before, const Spot& spot) const;
  /// At a spot of a layer and at those that follow it, as many as `out` is long.
  void hottest_of_layer(const Spot& spot, std::span<const double> t, std::span<double> out) const;
  [[nodiscard]] double hottest(const Spot& spot, std::span<const double> t) const;
  [[nodiscard]] double at_radius(std::size_t station, double radius, const Moment& moment) const;
  [[nodiscard]] double probe(const scenario::Probe& probe, const Moment& moment) const;
  void add_cells_of_columns(double position, std::vector<std::size_t>& cells) const;
  [[nodiscard]] std::pair<std::size_t, std::size_t> stations_beside(double position) const;
  [[nodiscard]] double probe_part(const scenario::Probe& probe, const Moment& moment) const;

  const HeatNetwork& network_;
  const scenario::Scenario& scenario_;
  std::vector<Column> columns_;           // per station
  std::vector<std::size_t> cells_;        // of all columns, one after the other
  std::vector<const Ring*> ring_;         // that each of them is in
  std::vector<std::vector<Ring>> rings_;  // per patch and row
  std::vector<Part> parts_;
  std::vector<std::vector<Spot>> spots_;    // per part
  std::vector<std::vector<Strip>> strips_;  // per part
  std::vector<std::size_t> tie_head_;       // per station: cell of the knob, or npos
  std::vector<grid::Link> tie_link_;
  ExposedSurfaces exposed_;
  std::vector<std::size_t> covered_;  // stations that are not exposed
};

}  // namespace ampstair::marching
