// SPDX-License-Identifier: MIT
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "grid/grid.hpp"
#include "marching/march.hpp"
#include "marching/network.hpp"
#include "marching/view.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::tests {

inline constexpr double zero_celsius = 273.15;

// ---- materials ------------------------------------------------------------------------------

/// A material of constant properties, SI.
std::shared_ptr<materials::Material> solid(const std::string& name, double conductivity,
                                           double density, double heat_capacity,
                                           double emissivity = 0.9);
/// A metal whose resistivity is `at_20` (1 + coefficient (T - 20 degC)).
std::shared_ptr<materials::Material> metal(double conductivity, double density,
                                           double heat_capacity, double at_20, double coefficient,
                                           double emissivity = 0.9);
/// Annealed copper, 100 % IACS: 1.7241e-8 ohm m and 0.00393 /K at 20 degC (IEC 60028, from memory);
/// 401 W/m/K, 8960 kg/m3, 385 J/kg/K (Incropera & DeWitt table A.1, from memory).
std::shared_ptr<materials::Material> copper();

// ---- surroundings ---------------------------------------------------------------------------

scenario::Surroundings still_air(double celsius);
scenario::Surroundings film(double coefficient, double emissivity, double celsius);

// ---- runs -----------------------------------------------------------------------------------

/// Lays a scenario piece by piece; the default output asks for what the program's defaults ask.
class Rig {
 public:
  Rig(scenario::Wire wire, scenario::Surroundings around);

  Rig& piece(const std::string& name, double length,
             decltype(scenario::Piece::kind) kind = scenario::Open{}, std::size_t around = 0);
  /// The piece laid last has wood before it.
  Rig& faces(const scenario::Facing& facing);
  Rig& insulated_end();
  Rig& held_end(double celsius);
  Rig& hold(double ampere, double seconds);
  Rig& feed(double volt, double seconds);
  Rig& rest(double seconds);
  Rig& conductor_probe(double position);
  Rig& surface_probe(double position);
  Rig& radius_probe(double position, double radius);
  Rig& part_probe(double position, const std::string& part);
  Rig& start(double celsius);

  scenario::Scenario sheet;

 private:
  void add_step(scenario::Step::Kind kind, double level, double seconds);
};

/// A long stretch of one wire between insulated ends: nothing depends on the place.
Rig long_wire(const scenario::Wire& wire, const scenario::Surroundings& around);

// ---- marching -------------------------------------------------------------------------------

/// What a march told its observer.
struct Marched {
  struct Row {
    double time = 0.0;
    std::size_t step = 0;
    bool step_ends = false;
    std::vector<double> probe;        ///< K
    std::vector<double> temperature;  ///< K per cell
    marching::Electrical electrical;
    double power = 0.0;
    marching::Ledger ledger;
  };
  std::vector<Row> rows;
  std::vector<marching::Event> events;
  std::vector<double> ends;  ///< s, of the time steps
  marching::Summary summary;

  [[nodiscard]] const Row& last() const { return rows.back(); }
  /// The row at a time [s], which must be an output time.
  [[nodiscard]] const Row& at(double time) const;
  /// Temperature of a probe in degC.
  [[nodiscard]] double celsius(double time, std::size_t probe = 0) const;
  [[nodiscard]] double last_celsius(std::size_t probe = 0) const;
  /// Largest gap of the ledger as a part of the heat made (or stored at the start, if none is).
  [[nodiscard]] double worst_gap() const;
};

/// Grid, network, view and march of a scenario, with the levels of its watch items.
/// @param scale refinement of the grid, as grid::build takes it
Marched run(const scenario::Scenario& scenario, double scale = 1.0);

}  // namespace ampstair::tests
