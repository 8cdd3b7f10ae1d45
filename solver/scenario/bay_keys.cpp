// SPDX-License-Identifier: MIT
#include "scenario/run_sheet.hpp"

namespace ampstair::scenario {

using materials::material_keys;
using sheet::by_default;
using sheet::Dimension;
using sheet::Mapping;
using sheet::optional;
using sheet::required;

const Mapping<LiningSheet>& lining_keys() {
  static const auto keys =
      Mapping<LiningSheet>("lining", "What the walls of a bay take heat into before it leaves")
          .text_or_mapping("material", &LiningSheet::material, material_keys(), required(),
                           "what it is made of")
          .number("thickness", &LiningSheet::thickness, Dimension::length, {0.0, 1.0, true},
                  required(), "that warms evenly with the inner surface");
  return keys;
}

const Mapping<BaySheet>& bay_keys() {
  static const auto keys =
      Mapping<BaySheet>("bay",
                        "A closed space between two faces and two studs, whose air the wire warms; "
                        "as long as the pieces in it")
          .number("width", &BaySheet::width, Dimension::length, {0.0, 100.0, true}, required(),
                  "between the studs: what each of its two faces measures across the wire")
          .number("depth", &BaySheet::depth, Dimension::length, {0.0, 100.0, true}, required(),
                  "from face to face")
          .number("conductance", &BaySheet::conductance, Dimension::film_coefficient,
                  {0.0, 7.0, true}, required(),
                  "of the two faces, from the bay's air to the air outside, per area: a builder's "
                  "U-value; nothing leaves through the studs")
          .number("inner_film", &BaySheet::inner_film, Dimension::film_coefficient, {0.1, 100.0},
                  by_default("2.5 W/m2/K", "ISO 6946, a wall; from memory"),
                  "of convection from the bay's air to its walls")
          .mapping("lining", &BaySheet::lining, lining_keys(), optional(),
                   "without it the walls hold next to no heat")
          .place(&BaySheet::place);
  return keys;
}

}  // namespace ampstair::scenario
