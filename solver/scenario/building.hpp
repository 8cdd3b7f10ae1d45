// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "scenario/run_sheet.hpp"
#include "scenario/scenario.hpp"
#include "scenario/spot.hpp"
#include "scenario/values.hpp"

// The steps of build_scenario(); each reads its part of the sheet and tells its own faults.

namespace ampstair::scenario {

Wire build_wire(const WireSheet& sheet, const Building& building);

/// Histories of the air and the walls; none where there are faults.
std::vector<AirStep> build_air(const std::vector<AirSheet>& entries, const std::string& path,
                               const Building& building);
std::vector<WallStep> build_walls(const std::vector<WallSheet>& entries, const std::string& path,
                                  const Building& building);
/// A bay per metre of the run, in surroundings that are those outside it.
Bay build_bay(const BaySheet& sheet, const std::optional<NeighbourSheet>& neighbour,
              const Surroundings& surroundings, const std::string& path, const Building& building);
/// Wood across air from a piece; `path` is "run/<name>/facing".
Facing build_facing(const FacingSheet& sheet, const std::string& path, const Building& building);
/// What a piece that faces wood cannot be, and a doubt where a draught takes its still air away.
void check_facing(const FacingSheet& sheet, const Piece& piece, const Surroundings& around,
                  diagnostics::ProblemList& problems);
/// A wood with the moisture a sheet gives it beside its name; unchanged where it gives none.
MaterialPtr moist(const MaterialPtr& wood, const sheet::Number& moisture, const std::string& path,
                  const Building& building);
/// Surroundings of the bay that an earlier piece lies in.
std::optional<std::size_t> bay_named(const sheet::Text& name, const Scenario& scenario,
                                     diagnostics::ProblemList& problems);
/// Surroundings of the whole run.
Surroundings build_surroundings(const AroundSheet& sheet, const std::string& path,
                                const Building& building);
/// Surroundings of a piece: what it does not give is as for the whole run.
Surroundings build_surroundings(const PieceAroundSheet& sheet, const Surroundings& of_run,
                                const std::string& path, const Building& building);

/// Which of the scenario's surroundings a piece lies in; what is not there yet is appended.
std::size_t build_piece_surroundings(const AnyPieceSheet& any, const std::string& path,
                                     const Building& building, Scenario& scenario);

/// Pieces in order, contiguous from 0; the scenario's wire and surroundings[0] are there already,
/// surroundings of single pieces are appended.
void build_run(const RunSheet& sheet, const Building& building, Scenario& scenario);

Supply build_supply(const SupplySheet& sheet, const Building& building);
std::vector<Step> build_staircase(const RunSheet& sheet, const Building& building);
std::optional<Device> build_device(const RunSheet& sheet, const Building& building);

Output build_output(const OutputSheet& sheet, const Building& building);
std::vector<Probe> build_probes(const RunSheet& sheet, const std::vector<Extent>& run,
                                const Building& building);

/// Instruments of a sheet without faults.
/// @param air K, what a camera without `reflected` is told
Instruments build_instruments(const InstrumentsSheet& sheet, const std::vector<Extent>& run,
                              double air);

/// Where the pieces lie; absent while the sheet's pieces are too faulty to tell.
std::optional<std::vector<Extent>> extents(const RunSheet& sheet);

/// Faults between keys that need no scenario: names, ends, spots, order.
void check_names(const RunSheet& sheet, diagnostics::ProblemList& problems);
void check_ends(const RunSheet& sheet, diagnostics::ProblemList& problems);
void check_instruments(const RunSheet& sheet, const std::vector<Extent>& run,
                       diagnostics::ProblemList& problems);
void check_study(const RunSheet& sheet, diagnostics::ProblemList& problems);
void check_device(const RunSheet& sheet, diagnostics::ProblemList& problems);
void check_rising(const RunSheet& sheet, diagnostics::ProblemList& problems);

/// Doubts about a scenario that is complete: supply, grid, output, persistence.
void check_supply(const RunSheet& sheet, const Scenario& scenario,
                  diagnostics::ProblemList& problems);
/// A device that no step of the staircase loads to its rating.
void check_device_load(const RunSheet& sheet, const Scenario& scenario,
                       diagnostics::ProblemList& problems);
/// A grid that was given must fit the wire; the default is made to.
void settle_grid(const RunSheet& sheet, Scenario& scenario, diagnostics::ProblemList& problems);
void check_times(const RunSheet& sheet, const Scenario& scenario,
                 diagnostics::ProblemList& problems);

}  // namespace ampstair::scenario
