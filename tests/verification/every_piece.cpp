// SPDX-License-Identifier: MIT
#include "every_piece.hpp"

#include <algorithm>
#include <utility>

namespace ampstair::tests {

Rig every_piece(scenario::MaterialPtr metal, const scenario::Surroundings& around, Gaps gaps) {
  const auto porcelain = solid("porcelain", 1.5, 2400, 1050);
  const auto wood = solid("wood", 0.13, 500, 1700);
  scenario::Knob knob;
  knob.body = porcelain;
  knob.mass = 0.068;
  knob.height = 0.04;
  knob.covers = 0.6;
  knob.grip_conductance = 300.0;
  knob.wood = wood;
  knob.base_conductance = 200.0;
  knob.wood_depth = 0.04;
  scenario::Tube tube;
  tube.body = porcelain;
  tube.bore = 9e-3;
  tube.outer = 16e-3;
  tube.wood = wood;
  tube.wood_thickness = 0.04;
  tube.wood_radius = 0.03;
  if (gaps == Gaps::of_a_solid) {
    tube.gap = solid("filling", 0.05, 100, 1000);
  }
  const double loose = gaps == Gaps::of_air ? 1e-3 : 0.0;
  Rig rig({std::move(metal),
           2e-3,
           {{"rubber", solid("rubber", 0.16, 1200, 1700), 1.2e-3},
            {"braid", solid("braid", 0.07, 600, 1340), 0.6e-3}}},
          around);
  rig.piece("A", 0.0, scenario::Lug{3.5e-4, 0.02, 5.0, 1e-3, true})
      .piece("a", 0.2)
      .piece("K1", 0.04, knob)
      .piece("b", 0.15)
      .piece("T1", 0.08, tube)
      .piece("c", 0.1)
      .piece("s", 0.12, scenario::Sleeve{solid("sleeving", 0.1, 900, 1400), 1e-3, loose})
      .piece("d", 0.1)
      .piece("S1", 0.06, scenario::Splice{5e-4, {{"tape", solid("tape", 0.2, 1100, 1500), 1e-3}}})
      .piece("e", 0.1)
      .piece("f", 0.25, scenario::Filled{solid("fill", 0.045, 50, 1600), 0.08})
      .piece("g", 0.05);
  scenario::CutEnd bare;
  rig.piece("end", 0.0, bare);
  rig.sheet.supply.lead = {2.0, 6e-6, 1e-3, rig.sheet.wire.metal};
  if (gaps == Gaps::of_air) {
    for (auto& piece : rig.sheet.run) {
      if (piece.name == "d" || piece.name == "s" || piece.name == "S1") {
        piece.facing = {wood, piece.name == "s" ? 1e-3 : 5e-3, 0.03, 0.06, 4e-3};
      }
    }
  }
  for (const auto& piece : std::vector(rig.sheet.run)) {
    if (piece.length > 0.0) {
      rig.conductor_probe(piece.begin + 0.5 * piece.length);
    }
  }
  return rig;
}

scenario::Scenario reversed(const scenario::Scenario& scenario) {
  auto mirrored = scenario;
  const double length = scenario.length();
  std::reverse(mirrored.run.begin(), mirrored.run.end());
  double begin = 0.0;
  for (auto& piece : mirrored.run) {
    piece.begin = begin;
    begin += piece.length;
  }
  for (auto& probe : mirrored.probes) {
    probe.position = length - probe.position;
  }
  return mirrored;
}

}  // namespace ampstair::tests
