// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "grid/grid.hpp"
#include "heat/enthalpy.hpp"
#include "marching/faces.hpp"
#include "marching/kernels.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::marching {

/// A property against temperature at even spacing, for look-ups without a search.
class Lookup {
 public:
  Lookup() = default;
  explicit Lookup(const materials::Curve& curve);
  [[nodiscard]] double at(double kelvin) const;
  [[nodiscard]] double slope_at(double kelvin) const;

 private:
  std::vector<double> value_;
};

/// What the supply is told to do.
struct Drive {
  scenario::Step::Kind kind = scenario::Step::Kind::rest;
  double level = 0.0;  ///< A or V
};

/// What it does, given the temperatures.
struct Electrical {
  double asked = 0.0;           ///< A; for a fed voltage what it drives
  double current = 0.0;         ///< A
  double wire_voltage = 0.0;    ///< V from one end of the run to the other
  double supply_voltage = 0.0;  ///< V with contacts and leads
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

  /// Surroundings as they are from `time` [s] on.
  void set_surroundings(double time) { faces_.set_surroundings(time); }
  void set_drive(const Drive& drive) { drive_ = drive; }

  /// u [K] of all cells at one temperature [K].
  [[nodiscard]] std::vector<double> uniform(double kelvin) const;
  /// T [K] and dT/du from u, all of length cells; T may be u itself. `slope` comes in filled with
  /// ones; only the cells whose heat capacity varies are written.
  void temperatures(std::span<const double> u, std::span<double> temperature,
                    std::span<double> slope) const;
  /// Cells whose heat capacity varies; in all others u is T.
  [[nodiscard]] const std::vector<std::size_t>& enthalpy_cells() const { return enthalpy_cells_; }
  /// T [K] of one cell from its u.
  [[nodiscard]] double temperature_of(std::size_t cell, double u) const;
  /// Net heat into every cell [W] at temperatures T; the padding is left as it is.
  /// @param linearise keep the slopes of this state for the factors (faces, made heat, conduction)
  Totals rates(std::span<const double> temperature, std::span<double> net, bool linearise);
  /// Resistance [ohm] of a station's wire, with its part of a joint, at a temperature [K].
  [[nodiscard]] double wire_resistance(std::size_t station, double kelvin) const;
  [[nodiscard]] Electrical electrical(std::span<const double> temperature) const;

  [[nodiscard]] const grid::Grid& grid() const { return grid_; }
  /// Capacity C of u per cell, J/K; 1 in the padding so that it can be divided by.
  [[nodiscard]] std::span<const double> capacity() const { return capacity_; }
  /// Conductance to the cell below, W/K per cell; of the last linearised or evaluated state.
  [[nodiscard]] std::span<const double> inward() const { return inward_; }
  /// Conductance to the next cell of the row, W/K per cell; 0 at a row's end.
  [[nodiscard]] std::span<const double> onward() const { return onward_; }
  [[nodiscard]] double link_conductance(const grid::Link& link, std::size_t a, std::size_t b) const;
  [[nodiscard]] double conductivity(std::size_t cell) const { return conductivity_[cell]; }
  /// d(loss)/dT of every face, W/K, of the linearised state.
  [[nodiscard]] const std::vector<double>& face_slope() const { return faces_.slope(); }
  /// d(made)/dT of every station, W/K, of the linearised state.
  [[nodiscard]] const std::vector<double>& source_slope() const { return source_slope_; }
  /// Cells of next to no heat capacity (gases), which the axial factor treats with care.
  [[nodiscard]] bool nearly_massless(std::size_t cell) const { return massless_[cell]; }
  /// Surface temperature of a face [K] when its cell is at `cell_temperature` [K].
  [[nodiscard]] double surface(std::size_t face, double cell_temperature) const {
    return faces_.surface(face, cell_temperature, conductivity_[grid_.faces[face].cell]);
  }
  /// First cell of the row below a row of a patch, aligned to the patch's first station.
  [[nodiscard]] std::size_t row_below(const grid::Patch& patch, std::size_t row) const;

  [[nodiscard]] double outer_path(const grid::Patch& patch, std::size_t row) const;
  [[nodiscard]] double inner_path(const grid::Patch& patch, std::size_t row) const;

 private:
  struct Medium {
    Lookup conductivity;  // used when it varies
    double fixed_conductivity = 0.0;
    bool varies = false;
    std::optional<heat::Enthalpy> enthalpy;  // where heat capacity varies
    double heat_per_volume = 0.0;            // J/m3/K of u
    Lookup resistivity;
  };

  void describe_media(const scenario::Scenario& scenario);
  void update_conductivities(std::span<const double> temperature);
  void update_row(const grid::Patch& patch, std::size_t row);
  void conduct(std::span<const double> temperature, std::span<double> net) const;
  double make(std::span<const double> temperature, std::span<double> net, bool linearise);
  void conduct_bodies(std::span<const double> temperature, std::span<double> net) const;
  struct Loop {
    double wire = 0.0;   // ohm
    double whole = 0.0;  // ohm, with contacts and leads
  };
  [[nodiscard]] Loop loop(std::span<const double> temperature) const;
  [[nodiscard]] Electrical drive_through(const Loop& loop) const;

  const grid::Grid& grid_;
  const scenario::Scenario& scenario_;
  std::vector<Medium> media_;
  Faces faces_;
  Drive drive_;
  double unmodelled_leads_ = 0.0;  // ohm of leads that are no side body

  Cells capacity_, conductivity_, inward_, onward_;
  std::vector<double> source_slope_;
  std::vector<double> metres_per_area_;  // 1/m per station; times the resistivity gives ohm
  std::vector<bool> massless_;
  std::vector<std::size_t> varying_cells_;   // conductivity follows temperature
  std::vector<std::size_t> enthalpy_cells_;  // heat capacity follows temperature
  struct RowRef {
    std::size_t patch, row;
  };
  std::vector<RowRef> varying_rows_;
};

}  // namespace ampstair::marching
