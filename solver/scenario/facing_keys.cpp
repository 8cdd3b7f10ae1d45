// SPDX-License-Identifier: MIT
#include "scenario/run_sheet.hpp"

namespace ampstair::scenario {

using materials::material_keys;
using sheet::by_default;
using sheet::Dimension;
using sheet::Mapping;
using sheet::optional;
using sheet::required;

const Mapping<FacingSheet>& facing_keys() {
  static const auto keys =
      Mapping<FacingSheet>("facing",
                           "Wood that a piece runs beside without touching it: a flat face along "
                           "the wire, a joist's or a stud's")
          .text_or_mapping("wood", &FacingSheet::wood, material_keys(),
                           by_default("softwood-dry", "common practice, no source"),
                           "what it is made of")
          .number(
              "distance", &FacingSheet::distance, Dimension::length, {0.0, 1.0, true}, required(),
              "width of the air between the outside of wire, sleeve or tape and the wood's face")
          .number("depth", &FacingSheet::depth, Dimension::length, {0.0, 1.0, true},
                  by_default("40 mm", "common practice, no source"),
                  "of the wood behind its face; its far side gives its heat to the air")
          .number("width", &FacingSheet::width, Dimension::length, {0.0, 10.0, true},
                  by_default("90 mm", "common practice, no source: a four-inch face"),
                  "of the face across the wire, which lies before its middle")
          .number("stagnant_film", &FacingSheet::stagnant_film, Dimension::length, {0.0, 0.1},
                  by_default("4 mm",
                             "computed: Langmuir's film round wires of 4 to 7 mm in still air is "
                             "4.7 to 3.3 mm, 20 to 100 K above it"),
                  "how far from the wire air does not rise but conducts; wood further away gets "
                  "radiation only. Thinner in a draught; 0: conduction is left out")
          .number("moisture", &FacingSheet::moisture, Dimension::ratio, {0.0, 0.25}, optional(),
                  "of the wood, water over oven-dry mass, where it differs from the material's")
          .place(&FacingSheet::place);
  return keys;
}

}  // namespace ampstair::scenario
