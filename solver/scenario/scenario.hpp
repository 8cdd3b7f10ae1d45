// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "materials/material.hpp"
#include "watch/item.hpp"
#include "watch/settling_rule.hpp"

namespace ampstair::scenario {

using MaterialPtr = std::shared_ptr<const materials::Material>;

/// One concentric layer round the conductor, or round what lies inside it.
struct Layer {
  std::string part;  ///< name watch items use: "rubber", "braid", "tape", ...
  MaterialPtr material;
  double thickness = 0.0;  ///< m
};

/// When open pieces lose their covering: where one of the limits given is met.
struct CoveringGone {
  std::optional<double> above;        ///< K, that all of it has been hotter than
  std::optional<double> broken_down;  ///< part that has broken down, everywhere in it
  double emissivity = 0.0;            ///< of the conductor laid bare
};

/// The wire along the whole run.
struct Wire {
  MaterialPtr metal;
  double diameter = 0.0;      ///< bare, m
  std::vector<Layer> layers;  ///< from the conductor outwards; empty for bare wire
  std::optional<CoveringGone> covering_gone = {};  ///< none: it stays
};

/// Air from `from_time` on, until the next entry.
struct AirStep {
  double from_time = 0.0;         ///< s
  double temperature = 0.0;       ///< K at from_time
  double speed = 0.0;             ///< m/s across the wire then; 0: still
  double temperature_rate = 0.0;  ///< K/s
  double speed_rate = 0.0;        ///< m/s2
};

/// Walls from `from_time` on, until the next entry.
struct WallStep {
  double from_time = 0.0;         ///< s
  double temperature = 0.0;       ///< K at from_time
  double temperature_rate = 0.0;  ///< K/s
};

/// A fixed exchange in place of the correlations, for verification and handbook cases.
struct FixedFilm {
  double coefficient = 0.0;          ///< W/m2/K
  std::optional<double> emissivity;  ///< replaces every surface's own
};

/// Correlation of free convection from a horizontal cylinder.
enum class StillAir { churchill_chu_1975, morgan_1975 };

/// How the correlations of convection are used.
struct Convection {
  StillAir still_air = StillAir::churchill_chu_1975;
  double factor = 1.0;    ///< times what the correlations give
  double pressure = 1.0;  ///< of the air, over one atmosphere
};

struct Surroundings {
  std::vector<AirStep> air;     ///< at least one, the first at 0 s, ascending
  std::vector<WallStep> walls;  ///< likewise; none: the walls follow the air
  Convection convection;
  double altitude = 0.0;  ///< m above sea level, which convection.pressure follows from
  std::optional<FixedFilm> film;
  /// Index into Scenario::bays: faces lie in that bay, whose outside the air here is.
  std::optional<std::size_t> bay;
};

/// A closed bay, per metre of the run in it: its air and its walls, each of one temperature. Where
/// a like wire is in it, too, this is the half that goes with one of them.
struct Bay {
  double air_capacity = 0.0;       ///< J/K/m
  double walls_capacity = 0.0;     ///< J/K/m
  double inner_conductance = 0.0;  ///< W/K/m from its air to its walls
  double outer_conductance = 0.0;  ///< W/K/m from its walls to the air outside
  bool shared = false;             ///< with a like wire
};

/// A lug at an end of the run; its contact makes heat, its lead may carry heat away.
struct Lug {
  double contact_resistance = 0.0;   ///< ohm
  double mass = 0.0;                 ///< kg of the lug's metal body
  double contact_conductance = 0.0;  ///< thermal, wire to lug, W/K
  double surface = 0.0;              ///< m2 of the lug exposed to the air
  bool sinks_to_lead = false;        ///< joined to the supply lead (Supply::lead)
};
/// A bare cut end: exposed to the air, insulated, or its conductor held at a temperature.
struct CutEnd {
  bool insulated = false;
  std::optional<double> held_at;  ///< K
};
struct Open {};
/// A split knob gripping the wire, screwed to wood.
struct Knob {
  MaterialPtr body;
  double mass = 0.0;              ///< kg
  double height = 0.0;            ///< m, base to top; the wire is gripped at half height
  double covers = 1.0;            ///< part of the wire's circumference in contact
  double grip_conductance = 0.0;  ///< wire surface to ceramic, W/m2/K
  MaterialPtr wood;               ///< null: not fixed to anything
  double base_conductance = 0.0;  ///< ceramic to wood, W/m2/K
  double wood_depth = 0.0;        ///< m, resolved behind the base; its far side at ambient air
};
/// A ceramic tube through wood with the wire lying in its bore.
struct Tube {
  MaterialPtr body;
  double bore = 0.0;            ///< diameter, m
  double outer = 0.0;           ///< diameter, m
  MaterialPtr gap;              ///< null: air, with radiation across it
  MaterialPtr wood;             ///< null: hangs free
  double wood_thickness = 0.0;  ///< m along the wire, centred on the tube
  double wood_radius = 0.0;     ///< m from the axis to where the wood ends (no heat passes there)
};
struct Sleeve {
  MaterialPtr material;
  double wall = 0.0;  ///< m
  double gap = 0.0;   ///< m, radial; 0: tight
};
struct Splice {
  double resistance = 0.0;      ///< ohm at 20 degC on top of the wire's own, even over the length
  std::vector<Layer> wrapping;  ///< tape over the covering
  double heat = 0.0;  ///< W, even over the length, while any current flows: a joint that glows
};
/// Buried in loose fill out to a radius where it is held at the air's temperature; fill of another
/// shape stands as the radius that resists as much.
struct Filled {
  MaterialPtr fill;
  double radius = 0.0;  ///< m from the axis
  double neighbour =
      0.0;  ///< m from axis to axis of a wire that makes as much heat; 0: there is none
};
/// Wood that a piece has beside it across air: the face of a joist or a stud, along the wire.
struct Facing {
  MaterialPtr wood;
  double distance = 0.0;       ///< m of air between the piece's outside and the wood
  double depth = 0.0;          ///< m of wood behind its face; its far side gives to the air
  double width = 0.0;          ///< m of the face across the wire, the wire before its middle
  double stagnant_film = 0.0;  ///< m round the wire within which air conducts and does not rise
};

struct Piece {
  std::string name;
  double begin = 0.0;      ///< m from the start of the run
  double length = 0.0;     ///< m; 0 for lugs and cut ends
  std::size_t around = 0;  ///< index into Scenario::surroundings
  double height = 0.0;     ///< m of the vertical stretch it is part of; 0: it runs horizontally
  std::variant<Lug, CutEnd, Open, Knob, Tube, Sleeve, Splice, Filled> kind;
  std::optional<Facing> facing;  ///< of an open piece, a sleeve, a splice

  [[nodiscard]] double end() const { return begin + length; }
};

/// Cable from the supply to one end of the run; there are two.
struct Lead {
  double length = 0.0;    ///< m, both together
  double area = 0.0;      ///< m2 of metal
  double covering = 0.0;  ///< m, thickness of its covering
  MaterialPtr metal;      ///< null: no leads
};
struct Supply {
  enum class Mode { current, voltage };
  Mode mode = Mode::current;
  std::optional<double> voltage_limit;  ///< V, behind the inner resistance
  Lead lead;
  double inner_resistance = 0.0;      ///< ohm, between its voltage and its terminals
  std::optional<double> power_limit;  ///< W at its terminals
};

/// A stretch of a step in which the level asked moves evenly.
struct Leg {
  double from = 0.0;   ///< s since the step began
  double level = 0.0;  ///< A or V, there
  double slope = 0.0;  ///< A/s or V/s

  [[nodiscard]] double level_at(double since_begin) const {
    return level + slope * (since_begin - from);
  }
};

struct Step {
  enum class Kind { hold_current, hold_voltage, rest };
  Kind kind = Kind::hold_current;
  double level = 0.0;     ///< A or V; the highest asked where it moves
  double duration = 0.0;  ///< s; the longest where it ends by a rule
  bool rejoined = false;  ///< a conductor that has parted is whole again from here on
  std::vector<Leg> legs;  ///< how the level moves, the first from 0 s on; empty: it is held
  std::optional<watch::SettlingRule> until;  ///< ends the step when it holds
  std::string load;                          ///< file the legs were read from, else empty
};

/// A current at which an overcurrent device has to open.
struct Opening {
  double times = 0.0;   ///< of the rating
  double within = 0.0;  ///< s
};
/// Stated limits of the circuit's overcurrent device; no march reads them.
struct Device {
  std::string kind;
  double rating = 0.0;              ///< A
  std::optional<double> must_hold;  ///< of the rating, for good
  std::vector<Opening> must_open;   ///< ascending in current
  std::string from;                 ///< where the limits came from
};

/// A place whose temperature is recorded at every output.
struct Probe {
  enum class Of { conductor, surface, part, radius };
  std::string name;
  double position = 0.0;  ///< m along the run
  Of of = Of::conductor;
  std::string part;     ///< for Of::part: hottest of this part at this position
  double radius = 0.0;  ///< m, for Of::radius
};

struct Output {
  std::string history;       ///< file name as given, may be empty
  double every = 0.0;        ///< s between rows
  double field_every = 0.0;  ///< s between whole r-z fields; 0: at the end of each step only
  double grid = 0.0;         ///< m, longest cell along the run
  int radial_cells = 0;      ///< cells through the covering
  double accuracy = 0.0;     ///< K, aimed at for the time error
};

/// A file that was read beside the sheet, word for word.
struct FileRead {
  std::string name;  ///< as the sheet calls it
  std::string text;
};

/// A place in the sheet and a value used, for the record: every number a result rests on.
struct ValueUsed {
  std::string path;  ///< "run/K1/grips"
  double value = 0.0;
  std::string unit;
  std::string source;
  bool by_default = false;
  std::optional<double> low;  ///< with `high`: the band given for it
  std::optional<double> high;
};

/// A place that an instrument is put to.
struct Spot {
  std::string name;       ///< as the sheet writes it
  double position = 0.0;  ///< m along the run
};
struct Camera {
  double emissivity_set = 0.0;
  double reflected = 0.0;          ///< K; the air's first temperature where the sheet gives none
  std::optional<double> ceiling;   ///< K
  std::optional<double> distance;  ///< m
  std::optional<double> pixel;     ///< rad, seen by one pixel
  std::vector<Spot> aim;
};
struct Thermocouple {
  std::string name;
  Spot spot;
  std::string under;  ///< layer over its bead; empty: on the surface
  double lag = 0.0;   ///< s
};
struct Voltmeter {
  Spot from, to;
  double error = 0.0;  ///< part of its reading
};
struct Touch {
  double contact = 0.0;  ///< s
  std::vector<Spot> spots;
};
/// What was, or will be, read on the rig; no march reads it.
struct Instruments {
  std::optional<Camera> camera;
  std::vector<Thermocouple> thermocouples;
  std::optional<Voltmeter> voltmeter;
  std::optional<Touch> touch;
};

/// Everything a march needs, in SI, complete once built.
struct Scenario {
  std::string title;
  std::string arrangement;  ///< "as built" or the arrangement's name
  Wire wire;
  std::vector<Piece> run;  ///< in order, contiguous from 0
  std::vector<Surroundings> surroundings;
  std::vector<Bay> bays;
  Supply supply;
  std::vector<Step> staircase;
  std::optional<Device> device;
  std::vector<watch::Item> watch;
  std::vector<Probe> probes;
  Instruments instruments;
  Output output;
  double start_temperature = 0.0;  ///< K, everything at t = 0
  /// Why the staircase is to go on past the limits at which it would stop; none: it stops.
  std::optional<std::string> beyond;
  std::vector<ValueUsed> values;
  std::vector<FileRead> files;

  [[nodiscard]] double length() const { return run.empty() ? 0.0 : run.back().end(); }
  /// s, of the staircase; the longest it can be where steps end by a rule.
  [[nodiscard]] double duration() const;
};

}  // namespace ampstair::scenario
