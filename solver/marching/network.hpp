// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "grid/grid.hpp"
#include "heat/enthalpy.hpp"
#include "marching/covering_sites.hpp"
#include "marching/faces.hpp"
#include "marching/gas_links.hpp"
#include "marching/heat_rows.hpp"
#include "marching/kernels.hpp"
#include "marching/lookup.hpp"
#include "marching/reacting_cells.hpp"
#include "marching/stretch.hpp"
#include "marching/wood_cells.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::marching {

/// What the supply is told to do.
struct Drive {
  scenario::Step::Kind kind = scenario::Step::Kind::rest;
  double level = 0.0;  ///< A or V, at `from`
  double slope = 0.0;  ///< A/s or V/s: 0 where it is held
  double from = 0.0;   ///< s

  [[nodiscard]] double level_at(double time) const { return level + slope * (time - from); }
};

/// What it does, given the temperatures.
struct Electrical {
  double asked = 0.0;           ///< A; for a fed voltage what it drives
  double current = 0.0;         ///< A
  double wire_voltage = 0.0;    ///< V from one end of the run to the other
  double supply_voltage = 0.0;  ///< V with contacts and leads: at the supply's terminals
  /// ohm at the supply's terminals, joints that glow left out; no number once the loop is open.
  double loop_resistance = 0.0;
  double joint_heat = 0.0;  ///< W made in joints that glow
  /// V that the current asked would need beyond what the supply's limits allow.
  double beyond_limits = 0.0;
};

/// Heat per second in the whole model, W.
struct Totals {
  double made = 0.0;
  double lost = 0.0;
};

/// The semi-discrete heat balance of a grid: C du/dt = Q(T(u)), T absolute in K, one value per cell
/// (padding included). u is T where heat capacity is constant, else the enthalpy variable of
/// heat::Enthalpy. Conservative: what leaves one cell enters another, the loss or the made heat.
class HeatNetwork {
 public:
  HeatNetwork(const grid::Grid& grid, const scenario::Scenario& scenario);
  ~HeatNetwork() = default;
  HeatNetwork(const HeatNetwork&) = delete;
  HeatNetwork& operator=(const HeatNetwork&) = delete;

  /// Surroundings as they are from `time` [s] on.
  void set_surroundings(double time) { faces_.set_surroundings(time); }
  void set_drive(const Drive& drive) { drive_ = drive; }
  /// The moment [s] of what is evaluated next: what a drive and surroundings in motion have come to
  /// then.
  /// @param lead s: what moving surroundings do by themselves, as found when linearised, is counted
  ///        for so long on top
  void set_time(double time, double lead = 0.0) {
    time_ = time;
    faces_.set_time(time, lead);
  }

  /// Where the conductor begins to melt, K; infinite where no melting point is given.
  [[nodiscard]] double melting_begins() const;
  /// Where it has taken up its heat of fusion, K: the same place where none is given.
  [[nodiscard]] double melting_ends() const;
  /// From here on the conductor's cells take up and give back its heat of fusion. Their u stays
  /// what it is, since nothing below the melting point changes; before, they cost no more than
  /// cells of any other fixed material.
  void let_conductor_melt();
  [[nodiscard]] bool conductor_may_melt() const { return may_melt_; }
  /// A parted conductor carries no current whatever the supply is told.
  void set_parted(bool parted) { parted_ = parted; }
  [[nodiscard]] bool parted() const { return parted_; }

  /// Where the covering may go, and is gone.
  [[nodiscard]] const CoveringSites& covering() const { return covering_; }
  /// The covering of a site is gone from here on: see CoveringSites. Cells that break down stay as
  /// far as they have come.
  void lose_covering(std::size_t site);

  /// u [K] of all cells at one temperature [K].
  [[nodiscard]] std::vector<double> uniform(double kelvin) const;
  /// T [K] and dT/du from u, all of length cells; T may be u itself. `slope` comes in filled with
  /// ones; only the cells whose heat capacity varies are written.
  void temperatures(std::span<const double> u, std::span<double> temperature,
                    std::span<double> slope) const;
  /// Wood has been nowhere warmer than at these u [K].
  void begin_past(std::span<const double> u) { woods_.begin(u); }
  /// Wood that is warmer than ever dries and chars: from here on T(u) is that of what is left.
  void remember(std::span<const double> u) { woods_.remember(u); }
  /// Cells that break down, to be marched with the temperatures.
  [[nodiscard]] ReactingCells& reactions() { return reactions_; }
  [[nodiscard]] const ReactingCells& reactions() const { return reactions_; }
  /// A reacting cell holds what its breakdown has left of it from here on.
  void shed(std::size_t reaction) {
    capacity_[reactions_.cell(reaction)] = reactions_.capacity(reaction);
  }
  /// Solves a stage of the reactions; from here on the rows are filled with their heat.
  /// @return J, the heat in all
  double react(std::size_t stage, double s, std::span<const double> temperature);
  /// u of some cells one after the other becomes T in place.
  void to_temperatures(std::size_t first, std::size_t count,
                       std::span<double> u_then_temperature) const;
  /// Cells whose heat capacity varies; in all others u is T.
  [[nodiscard]] const std::vector<std::size_t>& enthalpy_cells() const { return enthalpy_cells_; }
  /// Whether no property of any cell follows its temperature, the resistivity apart.
  [[nodiscard]] bool properties_are_fixed() const {
    return varying_.empty() && enthalpy_cells_.empty();
  }
  /// u [K] of one cell, not of wood, from its T.
  [[nodiscard]] double variable_of(std::size_t cell, double kelvin) const;
  /// T [K] of one cell from its u.
  [[nodiscard]] double temperature_of(std::size_t cell, double u) const;
  /// dT/du of one cell at its u.
  [[nodiscard]] double slope_of(std::size_t cell, double u) const;
  /// Net heat into every cell [W] at temperatures T; the padding is left as it is.
  /// @param linearise keep the slopes of this state for the factors (faces, made heat, conduction)
  Totals rates(std::span<const double> temperature, std::span<double> net, bool linearise);

  // Flows at the temperatures evaluated last:
  /// W made in every station of the wire.
  [[nodiscard]] std::span<const double> made() const { return made_; }
  /// W through every tie into its side body, body by body; through a shared surface, see there.
  [[nodiscard]] std::span<const double> tie_heat() const { return tie_heat_; }
  [[nodiscard]] const Faces& faces() const { return faces_; }

  /// Cells whose temperatures evaluate() and react() read: whole rows, and cells of other rows.
  /// Those other rows a stage may leave to fill_rows() to sum (see HeatStage).
  [[nodiscard]] const std::vector<Stretch>& rows_read() const { return rows_read_; }
  [[nodiscard]] const std::vector<std::size_t>& cells_read() const { return cells_read_; }

  // The same heat flows row by row, for loops that go on with a row while it is at hand.
  /// Finds what is made, what the faces give off and what the side bodies exchange at temperatures
  /// T; the rows are filled from it.
  Totals evaluate(std::span<const double> temperature, bool linearise);
  [[nodiscard]] const HeatRows& rows() const { return *rows_; }
  /// out = s Q + C sum weight_k U_k of some rows of rows(), of the conductor, of the side bodies,
  /// at the temperatures evaluated last; rows in their order, the conductor after them.
  void fill_rows(std::size_t first_row, std::size_t count, const HeatStage& stage) const;
  void fill_conductor(const HeatStage& stage) const;
  void fill_bodies(const HeatStage& stage) const;

  /// Resistance [ohm] of a station's wire, with its part of a joint, at a temperature [K].
  [[nodiscard]] double wire_resistance(std::size_t station, double kelvin) const;
  /// Resistance [ohm] of a cell of a side body at a temperature [K], its contact left out.
  [[nodiscard]] double body_resistance(const grid::SideBody& body, std::size_t i,
                                       double kelvin) const;
  [[nodiscard]] Electrical electrical(std::span<const double> temperature, double time) const;

  [[nodiscard]] const grid::Grid& grid() const { return grid_; }
  /// Capacity C of u per cell, J/K; 1 in the padding so that it can be divided by.
  [[nodiscard]] std::span<const double> capacity() const { return capacity_; }
  /// Conductance to the cell below, W/K per cell; of the last linearised or evaluated state.
  [[nodiscard]] std::span<const double> inward() const { return inward_; }
  /// Conductance to the next cell of the row, W/K per cell; 0 at a row's end.
  [[nodiscard]] std::span<const double> onward() const { return onward_; }
  [[nodiscard]] double link_conductance(const grid::Link& link, std::size_t a, std::size_t b) const;
  /// What a tie adds to the factors, in the linearised state, W/K: cell and head exchange
  /// `conductance` times their difference, and the head loses `head_loss` times its rise to the
  /// air, through the surface it may share with the cell. What the cell loses stands in
  /// face_slope().
  struct TieSlope {
    double conductance = 0.0;
    double head_loss = 0.0;
  };
  [[nodiscard]] TieSlope tie_slope(const grid::SideBody& body,
                                   const grid::SideBody::Tie& tie) const;
  /// Links across gases, of the linearised state.
  [[nodiscard]] const GasLinks& gas_links() const { return *gas_links_; }
  /// Surfaces that side bodies cover in part; slopes of the linearised state.
  [[nodiscard]] const std::vector<SharedSurface>& shared_surfaces() const {
    return faces_.shared();
  }
  /// Where closed bays take heat from the run; slopes of the linearised state.
  [[nodiscard]] const std::vector<BaySite>& bay_sites() const { return faces_.bay_sites(); }
  /// W/K from a bay's air to its walls, directly and by way of the surfaces in it.
  [[nodiscard]] double bay_link(std::size_t bay) const {
    return grid_.bays[bay].inner_conductance + faces_.bay_heat()[bay].through;
  }
  [[nodiscard]] double conductivity(std::size_t cell) const { return conductivity_[cell]; }
  /// d(loss)/dT of every face's cell, W/K, of the linearised state.
  [[nodiscard]] const std::vector<double>& face_slope() const { return faces_.slope(); }
  /// d(made)/dT of every station, W/K, of the linearised state.
  [[nodiscard]] const std::vector<double>& source_slope() const { return source_slope_; }
  /// Cells of next to no heat capacity (gases), which the axial factor treats with care.
  [[nodiscard]] bool nearly_massless(std::size_t cell) const { return massless_[cell]; }
  /// Surface temperature of a face [K] when the cells have these temperatures [K].
  [[nodiscard]] double surface(std::size_t face, std::span<const double> temperature) const {
    return faces_.surface(covering_.standing(face), temperature, conductivity_);
  }

 private:
  struct Medium {
    Lookup conductivity;  // used when it varies
    double fixed_conductivity = 0.0;
    bool varies = false;
    std::optional<heat::Enthalpy> enthalpy;  // where heat capacity varies
    std::shared_ptr<const heat::Wood> wood;  // where it dries and chars
    double heat_per_volume = 0.0;            // J/m3/K of u
    bool nearly_massless = false;            // a gas
    const materials::Material* breaks_down = nullptr;
    Lookup resistivity;
  };

  void describe_media(const scenario::Scenario& scenario);
  [[nodiscard]] bool may_go(const grid::Medium& medium) const;
  void measure_cells();
  void lay_rows();
  void lay_sites();
  void group_sites(const std::vector<std::size_t>& group_of, std::size_t groups);
  void lay_enthalpy_stretches();
  void lay_gas_links();
  void lay_joint_heat();
  void find_what_is_read();
  void update_conductivities(std::span<const double> temperature);
  void update_row(const grid::Patch& patch, std::size_t row);
  [[nodiscard]] heat::Enthalpy::State state_of(std::size_t cell, double u) const {
    return woods_.hold(cell) ? woods_.at(cell, u) : media_[grid_.medium[cell]].enthalpy->at(u);
  }
  double make(std::span<const double> temperature, bool linearise);
  void conduct_bodies(std::span<const double> temperature);
  double warm_bays(std::span<const double> temperature);
  void add_reaction(std::size_t cell, std::size_t count, const HeatStage& stage) const {
    if (!reaction_heat_.empty()) {
      for (std::size_t c = cell; c < cell + count; ++c) {
        stage.out[c] += reaction_heat_[c];
      }
    }
  }
  void add_sites(std::size_t first_group, std::size_t count, const HeatStage& stage) const;
  struct Loop {
    double wire = 0.0;   // ohm
    double whole = 0.0;  // ohm, with contacts and leads
  };
  [[nodiscard]] double current_at_voltage(const Loop& loop, double volt) const;
  [[nodiscard]] double beyond_limits(const Loop& loop, double asked) const;
  [[nodiscard]] Loop loop(std::span<const double> temperature) const;
  void add_contacts_and_leads(std::span<const double> temperature, Loop& loop) const;
  [[nodiscard]] Electrical drive_through(const Loop& loop, double time) const;

  const grid::Grid& grid_;
  const scenario::Scenario& scenario_;
  std::vector<Medium> media_;
  Faces faces_;
  CoveringSites covering_;
  Drive drive_;
  double time_ = 0.0;  // s, of what is evaluated
  bool may_melt_ = false;
  bool parted_ = false;
  double unmodelled_leads_ = 0.0;  // ohm of leads that are no side body

  Cells capacity_, conductivity_, inward_, onward_;
  std::vector<double> length_;  // m per station
  std::vector<double> ones_;    // as many as the longest of varying_ has cells
  std::vector<double> source_slope_;
  std::vector<double> metres_per_area_;  // 1/m per station; times the resistivity gives ohm
  std::vector<double> joint_heat_;       // W per station of joints that glow; empty: none does
  double whole_joint_heat_ = 0.0;        // W
  std::vector<bool> massless_;
  /// Cells one after the other of one medium one of whose properties follows temperature.
  struct Varying {
    std::size_t first, count, medium;
  };
  std::vector<Varying> varying_;
  std::vector<std::size_t> enthalpy_cells_;  // heat capacity follows temperature
  std::vector<Varying> enthalpy_stretches_;  // the same but for wood with a past
  WoodCells woods_;
  ReactingCells reactions_;
  std::vector<double> reaction_heat_;  // J per cell of the grid, of a stage; empty: nothing reacts
  struct RowRef {
    std::size_t patch, row;
  };
  std::vector<RowRef> varying_rows_;

  std::unique_ptr<HeatRows> rows_;
  std::unique_ptr<GasLinks> gas_links_;
  std::vector<double> made_;             // W per station
  std::vector<std::size_t> body_faces_;  // of side bodies
  Cells body_heat_;  // W per cell of the side bodies, which are the grid's last cells
  std::size_t first_body_cell_ = 0;
  /// Faces, or ties, one after the other at cells of the run that follow each other, too. Sites are
  /// grouped by row, in the order of rows(); the last group is the conductor's.
  struct Sites {
    std::size_t cell, index, count;
    bool ties;
  };
  std::vector<Sites> sites_;
  std::vector<std::size_t> group_begin_;
  std::vector<Stretch> rows_read_;
  std::vector<std::size_t> cells_read_;
  std::vector<double> tie_heat_;  // W from the run's cell into the body, body by body
};

}  // namespace ampstair::marching
