// SPDX-License-Identifier: MIT
#include "kinds_of_cell.hpp"

namespace ampstair::tests {

namespace {

constexpr double conductor_diameter = 1.6e-3;  // m

/// Conductor and one layer, 1.2 mm.
scenario::Wire covered(double conductivity = 0.16) {
  return {copper(),
          conductor_diameter,
          {{"rubber", solid("rubber", conductivity, 1200, 1700), 1.2e-3}}};
}

}  // namespace

Rig homogeneous_rows() {
  auto rig = long_wire(covered(), film(12.0, 0.0, 20.0));
  rig.sheet.output.grid = 1.0;
  rig.hold(40, 200);
  return rig;
}

Rig layer_interface() {
  // Radii 0.8, 1.6 and 3.2 mm: both layers double the radius, so both have half of the rows.
  scenario::Wire wire{copper(),
                      conductor_diameter,
                      {{"rubber", solid("rubber", 0.3, 1200, 1700), 0.8e-3},
                       {"cotton", solid("cotton", 0.03, 300, 1300), 1.6e-3}}};
  auto rig = long_wire(wire, film(12.0, 0.0, 20.0));
  rig.sheet.output.grid = 1.0;
  rig.radius_probe(0.5, 1.6e-3).hold(40, 200);
  return rig;
}

Rig air_gap() {
  Rig rig(covered(), film(12.0, 0.0, 20.0));
  rig.sheet.output.grid = 1.0;
  rig.insulated_end()
      .piece("s", 1.0, scenario::Sleeve{solid("sleeving", 0.1, 900, 1400), 1e-3, 1e-3})
      .insulated_end();
  rig.conductor_probe(0.5).radius_probe(0.5, 2e-3).surface_probe(0.5).hold(40, 200);
  return rig;
}

Rig gas_gap() {
  scenario::Tube tube;
  tube.body = solid("tubing", 0.1, 900, 1400);
  tube.bore = 6e-3;
  tube.outer = 8e-3;
  tube.gap = solid("gas", 0.05, 1.0, 1005);
  Rig rig(covered(), film(12.0, 0.0, 20.0));
  rig.sheet.output.grid = 1.0;
  rig.insulated_end().piece("t", 1.0, tube).insulated_end();
  rig.conductor_probe(0.5).hold(40, 200);
  return rig;
}

Rig held_ends() {
  Rig rig({copper(), conductor_diameter, {}}, film(10.0, 0.0, 20.0));
  rig.sheet.output.grid = 0.02;
  rig.held_end(20).piece("wire", 0.511).held_end(20).hold(30, 60);
  rig.conductor_probe(0.2555);
  return rig;
}

Rig sleeve_end(double along) {
  Rig rig(covered(0.5), film(12.0, 0.0, 20.0));
  rig.sheet.output.grid = 0.02 * along;
  const double bare = 0.1185 * along;
  const double sleeved = 0.1 * along;
  rig.insulated_end()
      .piece("a", bare)
      .piece("s", sleeved, scenario::Sleeve{solid("sleeving", 0.1, 900, 1400), 1.5e-3, 0.0})
      .piece("b", bare)
      .insulated_end();
  rig.conductor_probe(bare).conductor_probe(bare + 0.5 * sleeved).hold(40, 200);
  return rig;
}

Rig tube_through_board(double along) {
  scenario::Tube tube;
  tube.body = solid("porcelain", 1.7, 2400, 900);
  tube.bore = 6e-3;
  tube.outer = 12e-3;
  tube.gap = solid("still air", 0.05, 1.0, 1005);
  tube.wood = solid("wood", 0.13, 500, 1700);
  tube.wood_thickness = 0.04287 * along;
  tube.wood_radius = 0.0309;
  Rig rig(covered(), film(12.0, 0.0, 20.0));
  rig.sheet.output.grid = 0.02 * along;
  const double bare = 0.1185 * along;
  const double inside = 0.0878 * along;
  rig.insulated_end().piece("a", bare).piece("T", inside, tube).piece("b", bare).insulated_end();
  rig.conductor_probe(bare).conductor_probe(bare + 0.5 * inside).hold(40, 400);
  return rig;
}

namespace {

scenario::Knob split_knob(double covers) {
  scenario::Knob knob;
  knob.body = solid("porcelain", 1.5, 2400, 1050);
  knob.mass = 0.068;
  knob.height = 0.04;
  knob.covers = covers;
  knob.grip_conductance = 300.0;
  knob.wood = solid("wood", 0.13, 500, 1700);
  knob.base_conductance = 200.0;
  knob.wood_depth = 0.04;
  return knob;
}

}  // namespace

Rig knob_all_along(double covers) {
  Rig rig(covered(), film(12.0, 0.0, 20.0));
  rig.sheet.output.grid = 0.002;
  rig.insulated_end().piece("K", 0.0432, split_knob(covers)).insulated_end();
  rig.conductor_probe(0.0216).hold(40, 400);
  return rig;
}

Rig knob_with_wood(double along, double covers) {
  Rig rig(covered(), film(12.0, 0.0, 20.0));
  rig.sheet.output.grid = 0.02 * along;
  const double bare = 0.118 * along;
  const double gripped = 0.0432 * along;
  rig.insulated_end()
      .piece("a", bare)
      .piece("K", gripped, split_knob(covers))
      .piece("b", bare)
      .insulated_end();
  rig.conductor_probe(bare).conductor_probe(bare + 0.5 * gripped).hold(40, 400);
  return rig;
}

Rig lugs_with_leads() {
  Rig rig(covered(), film(12.0, 0.0, 20.0));
  rig.sheet.output.grid = 0.02;
  const scenario::Lug lug{3.5e-4, 0.02, 5.0, 1e-3, true};
  rig.piece("A", 0.0, lug).piece("w", 0.3116).piece("B", 0.0, lug).hold(40, 400);
  rig.sheet.supply.lead = {2.04, 6e-6, 1e-3, copper()};
  rig.conductor_probe(0.1558);
  return rig;
}

Rig facing_wood() {
  Rig rig(covered(), film(12.0, 0.9, 20.0));
  rig.sheet.output.grid = 1.0;
  rig.insulated_end()
      .piece("w", 1.0)
      .faces({solid("wood", 0.13, 500, 1700), 2e-3, 0.02, 0.05, 4e-3})
      .insulated_end();
  rig.conductor_probe(0.5).surface_probe(0.5).part_probe(0.5, "wood").hold(40, 400);
  return rig;
}

Rig moving_surroundings() {
  auto around = still_air(20.0);
  around.air.push_back({100.0, 30.0 + zero_celsius, 0.0});
  around.air.push_back({200.0, 30.0 + zero_celsius, 1.0});
  auto rig = long_wire(covered(), around);
  rig.sheet.output.grid = 1.0;
  rig.hold(40, 300);
  return rig;
}

}  // namespace ampstair::tests
