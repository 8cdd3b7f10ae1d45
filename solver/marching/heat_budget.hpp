// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "marching/network.hpp"

namespace ampstair::marching {

/// Where the heat of one slice of the run comes from and where it goes, at a moment: all cells over
/// one station, divided by its length. The wire is conductor and covering; what lies round it
/// (sleeve, tape, tube and wood, fill, the air between) is told apart. W per metre of run.
struct SliceBudget {
  double position = 0.0;   ///< m, its middle
  double width = 0.0;      ///< m along the run
  double conductor = 0.0;  ///< K

  // What comes in:
  double made = 0.0;               ///< by the current, joints included
  double breakdown = 0.0;          ///< by cells that break down
  double wire_from_start = 0.0;    ///< along the wire, from the side of the run's start; < 0: goes
  double wire_from_end = 0.0;      ///< from the side of the run's end
  double around_from_start = 0.0;  ///< along what lies round the wire
  double around_from_end = 0.0;

  // Where it goes:
  double stored_in_wire = 0.0;
  double stored_around = 0.0;
  double convected = 0.0;  ///< at surfaces, to the air or a bay's air
  double radiated = 0.0;   ///< at surfaces, to the walls round it
  double held = 0.0;       ///< to what is held at a temperature
  double into_body = 0.0;  ///< into what stands beside the wire: a knob, a lug

  /// From the wire into what lies round it: between the two parts of the slice, in no sum.
  double into_around = 0.0;
  std::string around;  ///< parts that lie round the wire, from inside out: "gap, sleeve"
  std::string body;    ///< what stands beside it: a knob or lug by name, "wood that it faces"

  /// What comes in less where it goes.
  [[nodiscard]] double gap() const {
    return made + breakdown + wire_from_start + wire_from_end + around_from_start +
           around_from_end - stored_in_wire - stored_around - convected - radiated - held -
           into_body;
  }
};

/// The same of a part of something beside the wire: the ceramic of a knob, the wood behind it, a
/// lug, its lead, the wood that a piece faces. W.
struct BodyBudget {
  std::string body;
  std::string part;
  double position = 0.0;   ///< m along the run, its middle
  double made = 0.0;       ///< by the current: contact and lead
  double comes_in = 0.0;   ///< from the wire, or from the part before
  double passed_on = 0.0;  ///< to the part behind
  double stored = 0.0;
  double convected = 0.0;
  double radiated = 0.0;
  double held = 0.0;

  [[nodiscard]] double gap() const {
    return made + comes_in - passed_on - stored - convected - radiated - held;
  }
};

/// Reads from a network where heat goes. What is stored is what the network's own rows give every
/// cell, and everything else is added up flow by flow, so that a gap tells of a flow left out.
class HeatBudget {
 public:
  HeatBudget(HeatNetwork& network, const scenario::Scenario& scenario);

  /// Evaluates the network at temperatures [K per cell] and a moment [s], in its present
  /// surroundings, drive and past; everything asked for afterwards is of that moment. As at the
  /// begin of a phase, nothing that the march goes on with is changed.
  void take(std::span<const double> temperature, double time);

  [[nodiscard]] SliceBudget slice(std::size_t station) const;
  /// Part by part of every side body, in their order; those of one name (the strips of wood that a
  /// piece faces) together.
  [[nodiscard]] std::vector<BodyBudget> bodies() const;
  [[nodiscard]] std::size_t stations() const { return network_.grid().stations(); }
  /// Station at a distance from the start of the run [m].
  [[nodiscard]] std::size_t station_at(double position) const;

 private:
  /// A tie of a side body.
  struct Grip {
    std::size_t station, body, index;
    std::size_t face;  // shared with the air, or none
  };

  void list_faces();
  void list_grips();
  [[nodiscard]] Faces::Given given_by(std::size_t cell) const;
  [[nodiscard]] double into_body(const Grip& grip) const;
  [[nodiscard]] double gripped(std::size_t body) const;
  [[nodiscard]] std::vector<BodyBudget> parts_of(std::size_t index) const;
  [[nodiscard]] double cell_made(const grid::SideBody& body, std::size_t i) const;

  HeatNetwork& network_;
  double wire_radius_;                                        // m, of the covering's outside
  std::vector<std::pair<std::size_t, std::size_t>> face_of_;  // cell and face, ascending
  std::vector<Grip> grips_;
  // Of the moment taken last:
  std::vector<double> temperature_;  // K per cell
  std::vector<double> net_;          // W into every cell
  std::vector<double> reacts_;       // W per cell; empty: nothing reacts
  std::vector<Faces::Given> given_;  // per face
  double square_ = 0.0;              // A2
};

}  // namespace ampstair::marching
