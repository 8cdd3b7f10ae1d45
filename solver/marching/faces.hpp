// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "grid/grid.hpp"
#include "heat/exchange.hpp"
#include "marching/kernels.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::marching {

/// A surface that a side body covers in part (grid::SideBody::Tie::face). It has one temperature Ts
/// and three ways: S to the cell, Gt through the tie to the head, and the free part to the air,
///   S (Tc - Ts) = q(Ts) A + Gt (Ts - Th).
/// That is a face of conductance S + Gt whose cell is at (S Tc + Gt Th) / (S + Gt), beside a tie of
/// conductance S Gt / (S + Gt): of the heat q A the cell brings the part S / (S + Gt), the head the
/// rest.
struct SharedSurface {
  std::size_t face = 0, cell = 0, head = 0;
  grid::Link link;          ///< from cell to head
  double head_part = 0.0;   ///< of the heat given off, that comes from the head
  double head_heat = 0.0;   ///< W of the head given off at the last exchange
  double head_slope = 0.0;  ///< W/K, d(loss)/dT of the head, cell and head rising together
  /// W/K that cell and head exchange less than the tie alone would have it, as the surface gives
  /// off more when one of them rises.
  double tie_slope = 0.0;
};

/// Conductance [W/K] of a link between cells of two conductivities [W/m/K].
inline double conductance(const grid::Link& link, double conductivity_a, double conductivity_b) {
  return 1.0 / (link.shape_a / conductivity_a + link.shape_b / conductivity_b + link.contact);
}

/// A place where a closed bay takes heat from the run: a face's cell, or the head that shares its
/// surface.
struct BaySite {
  std::size_t bay = 0, face = 0, cell = 0;
  bool axial = false;  ///< the face is an end of a cell outside the conductor
  /// W/K of the linearised state: what flows to the bay's air, to its walls, per kelvin that the
  /// cell is above them.
  double to_air = 0.0, to_walls = 0.0;
};

/// Heat [J] through a face.
struct FaceHeat {
  std::size_t face = 0;
  double heat = 0.0;
};

/// What the faces in a bay give it.
struct BayHeat {
  double convected = 0.0;  ///< W to its air
  double radiated = 0.0;   ///< W to its walls
  double through = 0.0;    ///< W/K from air to walls by way of the surfaces, linearised
};

/// The shape by which correlations know an exposed face.
heat::Shape shape_of(const grid::Exposure& exposure);

/// All exposed faces of a grid and what they give to their surroundings.
class Faces {
 public:
  Faces(const grid::Grid& grid, const scenario::Scenario& scenario);

  /// Surroundings as they are from `time` [s] on, until the next entry of their histories.
  void set_surroundings(double time);
  /// From here on the bare conductor's face is the only one of these cells (grid::BareFace).
  void lay_bare(const grid::BareFace& place, std::span<const std::size_t> cells);
  /// The moment [s] of what is exchanged next: what moving surroundings have come to then.
  /// @param lead s: see HeatNetwork::set_time
  void set_time(double time, double lead = 0.0) {
    time_ = time;
    lead_ = lead;
  }
  /// Whether any surroundings move now.
  [[nodiscard]] bool move() const { return move_; }

  /// Finds what every face gives off.
  /// @param temperature K per cell; @param conductivity W/m/K per cell
  /// @param linearise keep slopes and surface temperatures of this state
  /// @return heat lost, W; what goes to bays is not lost yet
  double exchange(std::span<const double> temperature, std::span<const double> conductivity,
                  bool linearise);

  /// Heat [W] each face's cell gave off through it at the last exchange, in the grid's order. What
  /// a shared surface gives off of the head's comes on top.
  [[nodiscard]] const std::vector<double>& heat() const { return heat_; }
  /// What a face gives off, W, what a shared surface gives off of the head's included.
  struct Given {
    double convected = 0.0;
    double radiated = 0.0;
    double held = 0.0;  ///< to what is held at a temperature, where there is no film
  };
  /// The same of every face at the last exchange, by the ways it leaves; with no lead.
  [[nodiscard]] std::vector<Given> given() const;
  /// d(loss)/dT of every face's cell [W/K] in the linearised state, in the grid's order; at a
  /// shared surface when the head rises as much.
  [[nodiscard]] const std::vector<double>& slope() const { return slope_; }
  /// Surfaces that side bodies cover in part, in the order of the bodies' ties.
  [[nodiscard]] const std::vector<SharedSurface>& shared() const { return shared_; }
  /// The one a face has, or none (null).
  [[nodiscard]] const SharedSurface* shared(std::size_t face) const {
    return shared_at_[face] == grid::Grid::npos ? nullptr : &shared_[shared_at_[face]];
  }
  /// Surface temperature [K] of a face when the cells have these temperatures [K] and
  /// conductivities [W/m/K].
  [[nodiscard]] double surface(std::size_t face, std::span<const double> temperature,
                               std::span<const double> conductivity) const;
  /// Finds all of them, in the grid's order, each from what it was at the call before; for a Faces
  /// that marches nothing. One by one, as surface() does it, they take ten times as long.
  /// @param out K per face
  void surfaces(std::span<const double> temperature, std::span<const double> conductivity,
                std::span<double> out);
  // Closed bays:
  [[nodiscard]] const std::vector<BaySite>& bay_sites() const { return bay_sites_; }
  /// At the last exchange; per bay.
  [[nodiscard]] const std::vector<BayHeat>& bay_heat() const { return bay_heat_; }
  /// The air outside a bay at the time set, K.
  [[nodiscard]] double outside(std::size_t bay) const;

 private:
  /// Place in a group, and in shared_.
  struct Shared {
    std::size_t place, index;
  };
  /// Places of a group, one after the other, whose faces follow each other, too, and whose cells
  /// do so along a row (step 1) or across rows.
  struct Strip {
    std::size_t place, face, cell, count, step;
  };
  /// Faces of one exposure, as arrays.
  struct Group {
    std::size_t exposure = 0;
    std::vector<std::size_t> face, cell;
    std::vector<Strip> strips;  // all of them
    Cells area, shape_per_area;
    Cells temperature, conductance, guess, guess_cell, guess_slope;  // of the linearised state
    Cells surface, flux, slope;                                      // results
    Cells drift;  // W/m2/s that the flux changes by itself, in the linearised state; of moving air
    std::vector<Shared> shared;
    std::size_t bay = grid::Grid::npos;
    std::vector<std::size_t> site;  // into bay_sites_, of each face in a bay
  };

  static void list_strips(Group& group);
  static void gather(Group& group, const Strip& strip, const double* temperature,
                     const double* conductivity);
  void gather(Group& group, std::span<const double> temperature,
              std::span<const double> conductivity);
  double exchange(Group& group, std::span<const double> temperature,
                  std::span<const double> conductivity, bool linearise);
  [[nodiscard]] heat::Ambient ambient(std::size_t exposure,
                                      std::span<const double> temperature) const;
  void set_area(std::size_t face, double area);
  void follow_ambient(const Group& group, std::span<const double> temperature);
  void list_bay_sites();
  void give_to_bay(const Group& group, bool linearise);
  void list_shared();
  void divide(Group& group, bool linearise);
  void find_drift(Group& group, std::span<const double> temperature);
  enum class Rounds { one, two };
  double solve_surfaces(Group& group, Rounds rounds) const;
  void keep(Group& group);

  const grid::Grid& grid_;
  const scenario::Scenario& scenario_;
  std::vector<heat::Exchange> exchanges_;     // per exposure
  std::vector<heat::Prevailing> prevailing_;  // each was made for
  bool move_ = false;                         // whether any of them does
  double from_time_ = 0.0;                    // s, that prevails from then
  double time_ = 0.0;                         // s
  double lead_ = 0.0;                         // s
  std::vector<BaySite> bay_sites_;
  std::vector<BayHeat> bay_heat_;
  std::vector<Group> groups_;
  std::vector<SharedSurface> shared_;
  std::vector<std::size_t> shared_at_;  // per face: index into shared_, or npos
  std::vector<double> slope_;
  std::vector<double> heat_;   // W per face
  std::vector<double> guess_;  // K per face, surface in the linearised state
};

}  // namespace ampstair::marching
