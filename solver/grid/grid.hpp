// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "scenario/scenario.hpp"

namespace ampstair::grid {

/// Still air in a narrow ring, with radiation across it (its properties follow from these).
struct AirGap {
  double inner_radius = 0.0;  ///< m
  double outer_radius = 0.0;  ///< m
  double inner_emissivity = 0.0;
  double outer_emissivity = 0.0;

  friend bool operator==(const AirGap&, const AirGap&) = default;
};

/// Air between a piece and the wood it faces, per metre along the run.
struct FacedGap {
  double conduction_shape = 0.0;  ///< 1: conducted heat = shape * conductivity of air * difference
  double exchange_width = 0.0;    ///< m: heat radiated = width * Stefan-Boltzmann * (T1^4 - T2^4)

  friend bool operator==(const FacedGap&, const FacedGap&) = default;
};

/// What fills a cell: a material or an air gap, and the name watch items know it by.
struct Medium {
  scenario::MaterialPtr material;  ///< null for air in a gap
  std::optional<AirGap> gap;
  std::string part;
  std::optional<FacedGap> faced = std::nullopt;

  friend bool operator==(const Medium&, const Medium&) = default;
};

/// A rectangle of cells: `rows` radial rows times `stations` stations along the run, each row
/// contiguous along the run. Patches stack outwards: the row below a patch's first row is its
/// parent's last one. Patch 0 is the conductor, one cell per station.
struct Patch {
  std::size_t parent = 0;  ///< index of the patch it rests on (itself for the conductor)
  std::size_t rows = 0;
  std::size_t first_station = 0;
  std::size_t stations = 0;
  std::size_t offset = 0;      ///< index of the first cell of the first row
  std::size_t stride = 0;      ///< cells from one row to the next, >= stations (padded)
  std::vector<double> radius;  ///< m, rows + 1 faces from inside out

  [[nodiscard]] std::size_t row(std::size_t i) const { return offset + i * stride; }
};

/// How a face gives heat to its surroundings.
struct Exposure {
  enum class To { air, held };
  enum class Shape { cylinder, plate, upright_cylinder };
  To to = To::air;
  Shape shape = Shape::cylinder;
  double length = 0.0;  ///< m: diameter, or height of the plate
  double height = 0.0;  ///< m, of an upright cylinder
  double emissivity = 0.0;
  double held_at = 0.0;  ///< K for To::held; 0: the air's temperature
  std::size_t surroundings = 0;
  // Of a surface that has something else before it, too:
  double convects = 1.0;  ///< part of it that air rises along
  double radiates = 1.0;  ///< part of what it emits that the walls take up

  friend bool operator==(const Exposure&, const Exposure&) = default;
};

/// A face of a cell that exchanges heat with the surroundings.
struct Face {
  std::size_t cell = 0;
  double area = 0.0;         ///< m2
  double shape = 0.0;        ///< m; conductance from the cell to the face = conductivity * shape
  bool axial = false;        ///< true: an end face of a cell outside the conductor
  std::size_t exposure = 0;  ///< index into Grid::exposures
};

/// A face of the bare conductor that takes the place of the covering's outer one where the covering
/// is gone, and is of no effect before. Both are of the same cell.
struct BareFace {
  std::size_t station = 0;
  std::size_t covered = 0;  ///< index into Grid::faces
  std::size_t bare = 0;     ///< index into Grid::faces
};

/// Conduction between two cells: G = 1 / (shape_a / k_a + shape_b / k_b + contact).
struct Link {
  double shape_a = 0.0;  ///< 1/m
  double shape_b = 0.0;  ///< 1/m
  double contact = 0.0;  ///< K/W
};

/// Something beside the wire that is not round it: a knob and the wood behind it, a lug and its
/// lead, the wood that a station faces. A chain of cells, one of them tied to cells of the run.
struct SideBody {
  std::string name;
  std::size_t first_cell = 0;
  std::size_t cells = 0;
  std::size_t tied = 0;     ///< which cell of the chain the ties lead to
  std::size_t holds = 0;    ///< the first cell from the tied one on that holds heat worth the name
  bool branch = false;      ///< its first cell is tied to one cell of one station, and to no other
  std::vector<Link> chain;  ///< between consecutive cells, cells - 1 of them
  struct Tie {
    std::size_t cell = 0;  ///< outermost cell of the run at `station`
    std::size_t station = 0;
    Link link;  ///< a: the run's cell, b: the chain's
    /// Face through which the cell gives to the air what the body leaves free of their one surface;
    /// none (npos) where it leaves nothing. The cell's way to the surface is then the whole one,
    /// all round, and stands in both: the face's `shape` is 1 / link.shape_a.
    std::size_t face = static_cast<std::size_t>(-1);
  };
  std::vector<Tie> ties;
  double contact_resistance = 0.0;      ///< ohm; its heat is made in the tied cell
  std::vector<double> metres_per_area;  ///< 1/m per cell; times the resistivity gives ohm
  struct Spot {
    std::string part;               ///< "ceramic", "wood"
    std::size_t cell = 0;           ///< index into the chain
    bool towards_previous = false;  ///< its face towards the previous cell is the hottest place
  };
  std::vector<Spot> spots;
  double position = 0.0;      ///< m along the run
  std::vector<double> depth;  ///< m per cell, of wood from its face; 0 for the others
  double end_depth = 0.0;     ///< m from that face to the wood's far side
};

/// A closed bay: two nodes that are no cells of the run, its air and its walls.
struct Bay {
  std::size_t surroundings = 0;  ///< of the faces in it
  std::size_t air_cell = 0, walls_cell = 0;
  double air_capacity = 0.0, walls_capacity = 0.0;  ///< J/K
  double inner_conductance = 0.0;                   ///< W/K from air to walls
  double outer_conductance = 0.0;                   ///< W/K from walls to the air outside
  double position = 0.0;                            ///< m along the run, its middle
};

/// The discretised run. Geometry only: what flows is the business of marching/.
struct Grid {
  std::vector<double> station_face;        ///< m, stations + 1
  std::vector<double> station_centre;      ///< m
  std::vector<std::size_t> station_piece;  ///< index into Scenario::run
  std::vector<double> joint_resistance;    ///< ohm per station at 20 degC, besides the wire's own
  double conductor_area = 0.0;             ///< m2

  std::vector<Patch> patches;  ///< parents before children
  std::size_t cells = 0;       ///< length of all per-cell arrays, padding included
  std::size_t real_cells = 0;  ///< without padding
  std::vector<Medium> media;
  std::vector<std::size_t> medium;  ///< per cell, index into media (padding: that of the conductor)
  std::vector<double> volume;       ///< m3 per cell; 0 in the padding
  std::vector<std::size_t> top_patch;  ///< per station: outermost patch there

  std::vector<Exposure> exposures;
  std::vector<Face> faces;
  std::vector<std::size_t> outer_face;  ///< per station: its radial face, or none (npos)
  std::vector<BareFace> bare_faces;     ///< where the covering may go
  std::vector<SideBody> bodies;
  std::vector<Bay> bays;

  /// Index of a medium, added if it is new.
  std::size_t medium_index(const Medium& wanted);
  /// Index of an exposure, added if it is new.
  std::size_t exposure_index(const Exposure& wanted);

  static constexpr std::size_t npos = static_cast<std::size_t>(-1);
  [[nodiscard]] std::size_t stations() const { return station_centre.size(); }
};

/// Lays the grid for a scenario.
/// @param scale 1 as the scenario's output asks; 2 halves every spacing (grid study)
Grid build(const scenario::Scenario& scenario, double scale = 1.0);

}  // namespace ampstair::grid
