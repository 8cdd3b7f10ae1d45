// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "materials/material_sheet.hpp"
#include "sheet/mapping.hpp"
#include "watch/item_keys.hpp"

// A run sheet as written, every number and text with its place. What it may hold is declared in
// run_sheet_keys.cpp, staircase_keys.cpp, piece_keys.cpp, facing_keys.cpp, bay_keys.cpp and
// kept_keys.cpp; build.hpp makes a Scenario of it.

namespace ampstair::scenario {

using MaterialSheet = materials::MaterialSheet;
/// A material's name, or its properties on the spot.
using MaterialChoice = sheet::TextOr<MaterialSheet>;

struct CaseSheet {
  sheet::Text purpose;
  sheet::Text date;
  sheet::Text notes;
};

struct MetalSheet {
  sheet::Place place;
  MaterialChoice material;
  sheet::Text gauge;       ///< "No. 12"; "by-diameter"
  sheet::Number diameter;  ///< m
};
struct LayerSheet {
  sheet::Place place;
  MaterialChoice material;
  sheet::Number thickness;   ///< m
  sheet::Number emissivity;  ///< ratio, of this layer's surface instead of the material's
  sheet::Text name;
};
struct CoveringGoneSheet {
  sheet::Place place;
  sheet::Number above;        ///< K
  sheet::Number broken_down;  ///< 1
  sheet::Number emissivity;   ///< 1
  sheet::Text from;
};
struct WireSheet {
  sheet::Place place;
  std::optional<MetalSheet> metal;
  std::vector<LayerSheet> layers;
  std::optional<CoveringGoneSheet> covering_gone;
};

struct AirSheet {
  sheet::Place place;
  sheet::Number at;           ///< s
  sheet::Number temperature;  ///< K
  sheet::Number speed;        ///< m/s
  bool ramp = false;
  sheet::Text csv;  ///< a file that holds the whole history
};
struct WallSheet {
  sheet::Place place;
  sheet::Number at;           ///< s
  sheet::Number temperature;  ///< K
  bool ramp = false;
};
/// K; the correlations of air end there.
inline constexpr double coldest_air = 173.15;
inline constexpr double hottest_air = 473.15;
inline const sheet::Bounds air_temperatures = {coldest_air, hottest_air};

struct FilmSheet {
  sheet::Number coefficient;  ///< W/m2/K
  sheet::Number emissivity;   ///< ratio
};
struct AroundSheet {
  sheet::Place place;
  std::vector<AirSheet> air;
  std::vector<WallSheet> walls;
  sheet::Text still_air;
  sheet::Number convection;  ///< ratio
  sheet::Number altitude;    ///< m
  std::optional<FilmSheet> film;
};
struct NeighbourSheet {
  sheet::Number distance;  ///< m from axis to axis
};
/// Loose fill; one of `to`, `slab` and `depth` says how far it reaches.
struct FillSheet {
  MaterialChoice fill;
  sheet::Number to;            ///< m from the axis
  sheet::Number slab;          ///< m from face to face, the wire midway
  sheet::Number depth;         ///< m from the axis to the one face
  sheet::Number conductivity;  ///< W/m/K instead of the fill's own
  std::optional<NeighbourSheet> neighbour;
};
struct LiningSheet {
  MaterialChoice material;
  sheet::Number thickness;  ///< m
};
struct BaySheet {
  sheet::Place place;
  sheet::Number width;        ///< m
  sheet::Number depth;        ///< m
  sheet::Number conductance;  ///< W/m2/K
  sheet::Number inner_film;   ///< W/m2/K
  std::optional<LiningSheet> lining;
};
/// Surroundings of one piece; with `fill` an open piece is buried.
struct PieceAroundSheet : AroundSheet, FillSheet {
  sheet::TextOr<BaySheet> bay;  ///< a text: that of the piece of this name
};

/// Wood across air from a piece.
struct FacingSheet {
  sheet::Place place;
  MaterialChoice wood;
  sheet::Number distance;       ///< m
  sheet::Number depth;          ///< m
  sheet::Number width;          ///< m
  sheet::Number stagnant_film;  ///< m
  sheet::Number moisture;       ///< ratio
};

/// What every piece has.
struct PieceSheet {
  sheet::Place place;
  sheet::Text word;  ///< "knob"
  sheet::Text name;
  sheet::Text runs;  ///< "vertical"; missing for ends
  std::optional<PieceAroundSheet> around;
};
struct LugSheet : PieceSheet {
  sheet::Number contact;  ///< ohm
  sheet::Text sinks_to;
  sheet::Number mass;                 ///< kg
  sheet::Number barrel;               ///< m of wire gripped
  sheet::Number contact_conductance;  ///< W/m2/K
  sheet::Number surface;              ///< m2
};
struct CutEndSheet : PieceSheet {
  bool insulated = false;
  sheet::Number held_at;  ///< K
};
struct OpenSheet : PieceSheet {
  sheet::Number length;  ///< m
  std::optional<FacingSheet> facing;
};
struct KnobSheet : PieceSheet {
  sheet::Number grips;  ///< m along the run
  MaterialChoice body;
  sheet::Number mass;              ///< kg
  sheet::Number height;            ///< m
  sheet::Number covers;            ///< ratio
  sheet::Number grip_conductance;  ///< W/m2/K
  MaterialChoice fixed_to;
  sheet::Number base_conductance;  ///< W/m2/K
  sheet::Number wood_depth;        ///< m
  sheet::Number moisture;          ///< ratio, of the wood
};
struct TubeSheet : PieceSheet {
  sheet::Number length;  ///< m
  MaterialChoice body;
  sheet::Number bore;   ///< m
  sheet::Number outer;  ///< m
  MaterialChoice gap;
  MaterialChoice through;
  sheet::Number wood;         ///< m along the wire
  sheet::Number wood_radius;  ///< m
  sheet::Number moisture;     ///< ratio, of the wood
};
struct SleeveSheet : PieceSheet {
  sheet::Number length;  ///< m
  MaterialChoice material;
  sheet::Number wall;  ///< m
  sheet::Text fit;
  sheet::Number gap;  ///< m
  std::optional<FacingSheet> facing;
};
struct SpliceSheet : PieceSheet {
  sheet::Number length;      ///< m
  sheet::Number resistance;  ///< ohm
  sheet::Number heat;        ///< W
  sheet::Text kind;
  MaterialChoice tape;
  sheet::Number tape_thickness;  ///< m
  std::optional<FacingSheet> facing;
};
struct FilledSheet : PieceSheet, FillSheet {
  sheet::Number length;  ///< m
};
using AnyPieceSheet = std::variant<LugSheet, CutEndSheet, OpenSheet, KnobSheet, TubeSheet,
                                   SleeveSheet, SpliceSheet, FilledSheet>;

/// What all kinds share of a piece.
const PieceSheet& base(const AnyPieceSheet& piece);
PieceSheet& base(AnyPieceSheet& piece);
/// The wood a piece faces; empty where its kind has no such key, too.
const std::optional<FacingSheet>& facing_of(const AnyPieceSheet& piece);

struct LeadsSheet {
  sheet::Number length;    ///< m, both together
  sheet::Number area;      ///< m2
  sheet::Number covering;  ///< m
  MaterialChoice material;
};
struct SupplySheet {
  sheet::Place place;
  sheet::Text mode;
  sheet::Number voltage_limit;     ///< V
  sheet::Number power_limit;       ///< W
  sheet::Number inner_resistance;  ///< ohm
  std::optional<LeadsSheet> leads;
};

struct StepSheet {
  sheet::Place place;
  sheet::Number hold;           ///< A
  sheet::Number volts;          ///< V
  sheet::Number rest;           ///< s
  sheet::Number lasts;          ///< s, key `for`
  sheet::Number ramp_to;        ///< A
  sheet::Number ramp_volts_to;  ///< V
  sheet::Text load;             ///< file
  sheet::Text between;
  sheet::Text until;
  sheet::Number at_most;  ///< s
  bool rejoined = false;
};
/// One entry of a staircase: a step, or steps in turn.
struct StaircaseEntrySheet : StepSheet {
  std::vector<StepSheet> cycle;
  sheet::Number times;
};

struct OpeningSheet {
  sheet::Number times;   ///< of the rating
  sheet::Number within;  ///< s
};
struct DeviceSheet {
  sheet::Text kind;
  sheet::Number rating;     ///< A
  sheet::Number must_hold;  ///< of the rating
  std::vector<OpeningSheet> must_open;
  sheet::Text from;
};

struct CameraSheet {
  sheet::Place place;
  std::vector<sheet::Text> aim;
  sheet::Number emissivity_set;
  sheet::Number reflected;  ///< K
  sheet::Number ceiling;    ///< K
  sheet::Number distance;   ///< m
  sheet::Number ifov;       ///< rad, of one pixel
};
struct ThermocoupleSheet {
  sheet::Text name;
  sheet::Text spot;
  sheet::Text under;
  sheet::Number lag;  ///< s
};
struct VoltmeterSheet {
  std::vector<sheet::Text> taps;
  sheet::Number error;  ///< ratio
};
struct TouchSheet {
  std::vector<sheet::Text> spots;
  sheet::Number contact;  ///< s
};
struct InstrumentsSheet {
  std::optional<CameraSheet> camera;
  std::vector<ThermocoupleSheet> thermocouples;
  std::optional<VoltmeterSheet> voltmeter;
  std::optional<TouchSheet> touch;
};

struct ArrangementSheet {
  sheet::Text name;
  std::vector<sheet::Node> change;
};

struct LargestCurrentSheet {
  sheet::Text keep;
  sheet::Number risk;
};
struct FindSheet {
  std::optional<LargestCurrentSheet> largest_current;
};
struct StudySheet {
  sheet::Place place;
  sheet::Number members;
  sheet::Number seed;
  std::optional<FindSheet> find;
  bool rank = false;
};

struct ProbeSheet {
  sheet::Place place;
  sheet::Text name;
  sheet::Text at;
  sheet::Text part;
  sheet::Number radius;  ///< m
};

struct OutputSheet {
  sheet::Place place;
  sheet::Text history;
  sheet::Number every;        ///< s
  sheet::Number field_every;  ///< s
  sheet::Number grid;         ///< m
  sheet::Number radial_cells;
  sheet::Number accuracy;  ///< K
};

/// Key `beyond`: go on past the staircase's own stops.
struct BeyondSheet {
  sheet::Text reason;
};

struct RunSheet {
  sheet::Place place;
  sheet::Text format;
  sheet::Text title;
  std::optional<CaseSheet> about;  ///< key `case`
  std::optional<WireSheet> wire;
  std::vector<AnyPieceSheet> run;
  std::optional<AroundSheet> around;
  std::optional<SupplySheet> supply;
  std::vector<StaircaseEntrySheet> staircase;
  sheet::Text shape;
  std::optional<DeviceSheet> device;
  std::vector<watch::ItemSheet> watch;
  std::optional<InstrumentsSheet> instruments;
  std::vector<ArrangementSheet> arrangements;
  std::optional<StudySheet> study;
  std::vector<ProbeSheet> probes;
  std::optional<OutputSheet> output;
  std::optional<BeyondSheet> beyond;
};

/// Every key a run sheet may hold.
const sheet::Mapping<RunSheet>& run_sheet_keys();

/// The kinds of piece, told apart by the word under `piece`.
using PieceKinds = sheet::Alternatives<LugSheet, CutEndSheet, OpenSheet, KnobSheet, TubeSheet,
                                       SleeveSheet, SpliceSheet, FilledSheet>;
const PieceKinds& piece_kinds();

// Parts of run_sheet_keys() with a file of their own.
const sheet::Mapping<AroundSheet>& around_keys();
const sheet::Mapping<PieceAroundSheet>& piece_around_keys();
const sheet::Mapping<NeighbourSheet>& neighbour_keys();
const sheet::Mapping<StaircaseEntrySheet>& staircase_entry_keys();
const sheet::Mapping<BaySheet>& bay_keys();
const sheet::Mapping<FacingSheet>& facing_keys();
const sheet::Mapping<DeviceSheet>& device_keys();
const sheet::Mapping<InstrumentsSheet>& instruments_keys();
const sheet::Mapping<StudySheet>& study_keys();

}  // namespace ampstair::scenario
