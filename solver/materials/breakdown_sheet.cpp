// SPDX-License-Identifier: MIT
#include "materials/material_sheet.hpp"

namespace ampstair::materials {

using sheet::Dimension;

const sheet::Mapping<BreakdownSheet>& breakdown_keys() {
  using sheet::optional;
  using sheet::required;
  static const auto keys =
      sheet::Mapping<BreakdownSheet>("breakdown",
                                     "Breakdown of a covering as one first-order reaction")
          .number("frequency", &BreakdownSheet::frequency, Dimension::per_second, {0.0, 1e40, true},
                  required(), "frequency factor of its rate, frequency exp(-energy / (R T))")
          .number("energy", &BreakdownSheet::energy, Dimension::molar_energy, {1e3, 1e6},
                  required(), "activation energy")
          .number("heat", &BreakdownSheet::heat, Dimension::specific_energy, {-1e7, 5e7},
                  required(),
                  "made by the whole reaction per mass of the covering; below 0 where it takes "
                  "heat")
          .number("conductivity_after", &BreakdownSheet::conductivity_after,
                  Dimension::conductivity, {1e-4, 1e3}, optional(),
                  "of what has broken down; else it conducts as before")
          .number(
              "mass_lost", &BreakdownSheet::mass_lost, Dimension::ratio, {0.0, 0.99}, optional(),
              "part of its mass that leaves as gas, and takes along the heat it holds; else all "
              "of it stays")
          .place(&BreakdownSheet::place);
  return keys;
}

Breakdown build_breakdown(const BreakdownSheet& sheet) {
  Breakdown breakdown{sheet.frequency.best, sheet.energy.best, sheet.heat.best, {}, 0.0};
  if (sheet.conductivity_after.present()) {
    breakdown.conductivity_after = sheet.conductivity_after.best;
  }
  if (sheet.mass_lost.present()) {
    breakdown.mass_lost = sheet.mass_lost.best;
  }
  return breakdown;
}

}  // namespace ampstair::materials
