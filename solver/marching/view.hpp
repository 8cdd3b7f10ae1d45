// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "marching/march.hpp"
#include "marching/network.hpp"

namespace ampstair::marching {

/// Reads from a march's cell temperatures what people ask for: surfaces, the hottest radius of each
/// part, temperatures at given places. All temperatures in K.
class View {
 public:
  View(const HeatNetwork& network, const scenario::Scenario& scenario);

  /// Outermost surface of the run at every station; `out` has one value per station.
  void surfaces(std::span<const double> temperature, std::span<double> out) const;

  /// A part that is not the conductor, where it exists. The innermost layer on the conductor is as
  /// hot as the conductor at its inner face and has no entry.
  struct Part {
    std::string name;
    std::vector<double> position;  ///< m along the run, one per spot, ascending
    bool everywhere = false;       ///< one spot per station
  };
  [[nodiscard]] const std::vector<Part>& parts() const { return parts_; }
  /// Hottest temperature of a part over its radius (or depth) at each of its spots.
  void part(std::size_t index, std::span<const double> temperature, std::span<double> out) const;

  /// Appends the cells that surfaces(), or part(), reads; a cell may come more than once.
  void add_cells_of_surfaces(std::vector<std::size_t>& cells) const;
  void add_cells_of_part(std::size_t index, std::vector<std::size_t>& cells) const;

  /// Temperatures of the scenario's probes; `out` has one value per probe.
  void probes(const Moment& moment, std::span<double> out) const;

 private:
  /// Cells of one column from the conductor outwards, with their faces.
  struct Column {
    std::vector<std::size_t> cells;
    std::vector<double> radius;        // m, cells + 1
    std::vector<double> mean;          // m, radius at which a cell's temperature holds
    std::vector<double> inner, outer;  // 1/m: paths from cell to face per 2 pi k dz
  };
  struct Spot {
    std::size_t station = 0;
    std::size_t first = 0, last = 0;  // range in the station's column
    std::size_t body = 0, cell = 0;   // for side bodies: cell of the grid
    bool of_body = false, towards_previous = false;
  };

  void build_columns();
  void build_parts(const scenario::Scenario& scenario);
  void add_spot(const std::string& part, const Spot& spot, double position);
  [[nodiscard]] double outermost(std::size_t station, std::span<const double> t) const;
  [[nodiscard]] double inner_face(std::size_t station, std::size_t row,
                                  std::span<const double> t) const;
  [[nodiscard]] double hottest(const Spot& spot, std::span<const double> t) const;
  [[nodiscard]] double at_radius(std::size_t station, double radius, const Moment& moment) const;
  [[nodiscard]] double probe(const scenario::Probe& probe, const Moment& moment) const;
  [[nodiscard]] double probe_part(const scenario::Probe& probe, const Moment& moment) const;

  const HeatNetwork& network_;
  const scenario::Scenario& scenario_;
  std::vector<Column> columns_;
  std::vector<Part> parts_;
  std::vector<std::vector<Spot>> spots_;  // per part
  std::vector<std::size_t> tie_head_;     // per station: cell of the knob, or npos
  std::vector<grid::Link> tie_link_;
};

}  // namespace ampstair::marching
