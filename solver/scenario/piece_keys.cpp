// SPDX-License-Identifier: MIT
#include "scenario/run_sheet.hpp"

namespace ampstair::scenario {

namespace {

using materials::material_keys;
using sheet::Bounds;
using sheet::by_default;
using sheet::Dimension;
using sheet::Mapping;
using sheet::optional;
using sheet::required;

const Bounds along_the_run = {0.0, 1000.0, true};  // m
const Bounds across = {0.0, 1.0, true};            // m
const Bounds contact_bounds = {0.0, 1e6, true};    // W/m2/K
const char* const practice = "common practice, no source";
const char* const estimate = "an estimate, no source: rough, dry contact";

/// Starts the keys of a kind of piece with what every piece has.
template <class T>
Mapping<T> piece(const char* word, const char* help) {
  Mapping<T> keys(word, help);
  keys.text("name", &T::name, required(), "how probes, instruments and changes refer to it")
      .mapping("around", &T::around, piece_around_keys(), optional(),
               "surroundings of this piece where they differ from the run's")
      .place(&T::place)
      .word(&T::word);
  return keys;
}

/// Which way the wire lies there.
template <class T>
Mapping<T>& with_direction(Mapping<T>& keys) {
  return keys.choice("runs", &T::runs,
                     {{"horizontal", "or nearly so"},
                      {"vertical",
                       "the air rises along it; pieces that follow each other make one "
                       "height"}},
                     by_default("horizontal", "nothing else is said"),
                     "direction of the wire; it decides the correlation of still air");
}

template <class T>
Mapping<T>& with_moisture(Mapping<T>& keys) {
  return keys.number("moisture", &T::moisture, Dimension::ratio, {0.0, 0.25}, optional(),
                     "of the wood, water over oven-dry mass, where it differs from the material's; "
                     "the material is then that of the dry wood. About 12 % indoors, more in damp "
                     "cellars");
}

template <class T>
Mapping<T>& with_facing(Mapping<T>& keys) {
  return keys.mapping("facing", &T::facing, facing_keys(), optional(),
                      "wood beside it across air; without it all round is air and the walls far "
                      "away");
}

template <class T>
Mapping<T>& with_length(Mapping<T>& keys) {
  return with_direction(keys.number("length", &T::length, Dimension::length, along_the_run,
                                    required(), "along the run"));
}

Mapping<LugSheet> lug_keys() {
  return piece<LugSheet>("lug", "A lug at an end of the run")
      .number("contact", &LugSheet::contact, Dimension::resistance, {0.0, 1e3}, required(),
              "electrical resistance of its joints")
      .choice("sinks_to", &LugSheet::sinks_to,
              {{"supply-lead", "joined to the supply lead, which carries heat away"},
               {"nothing", "no heat leaves through the lug but from its surface"}},
              by_default("nothing", "no heat sink is assumed"), "where its heat may go")
      .number("mass", &LugSheet::mass, Dimension::mass, {0.0, 10.0, true},
              by_default("20 g", practice), "of its metal body, taken as copper")
      .number("barrel", &LugSheet::barrel, Dimension::length, across, by_default("15 mm", practice),
              "length of wire it grips")
      .number("contact_conductance", &LugSheet::contact_conductance, Dimension::film_coefficient,
              contact_bounds, by_default("10000 W/m2/K", "an estimate, no source: crimped metal"),
              "thermal, between wire and barrel")
      .number("surface", &LugSheet::surface, Dimension::area, {0.0, 1.0},
              by_default("6 cm2", practice), "of the lug, exposed to the air");
}

Mapping<CutEndSheet> cut_end_keys() {
  return piece<CutEndSheet>("cut-end", "A bare end of the run; the current enters without a joint")
      .truth("insulated", &CutEndSheet::insulated, false, "no heat passes the end")
      .number("held_at", &CutEndSheet::held_at, Dimension::temperature, {1.0, 2000.0}, optional(),
              "the conductor's end is kept at this temperature");
}

Mapping<OpenSheet> open_keys() {
  auto keys = piece<OpenSheet>("open", "Wire in the open, or buried where its 'around' has a fill");
  return with_facing(with_length(keys));
}

Mapping<KnobSheet> knob_keys() {
  auto keys = piece<KnobSheet>("knob", "A split knob that grips the wire, fixed to wood");
  return with_moisture(with_direction(keys))
      .number("grips", &KnobSheet::grips, Dimension::length, across, required(),
              "length of wire it grips; also its length along the run")
      .text_or_mapping("body", &KnobSheet::body, material_keys(), by_default("porcelain", practice),
                       "what it is made of")
      .number("mass", &KnobSheet::mass, Dimension::mass, {0.0, 10.0, true},
              by_default("68 g", practice), "of the body")
      .number("height", &KnobSheet::height, Dimension::length, across,
              by_default("40 mm", practice), "base to top; the wire is gripped half-way up")
      .number("covers", &KnobSheet::covers, Dimension::ratio, {0.05, 1.0},
              by_default("0.8", practice), "part of the wire's circumference that it touches")
      .number("grip_conductance", &KnobSheet::grip_conductance, Dimension::film_coefficient,
              contact_bounds, by_default("200 W/m2/K", estimate), "contact of wire and body")
      .text_or_mapping("fixed_to", &KnobSheet::fixed_to, material_keys(),
                       by_default("softwood-dry", practice), "the wood, or 'nothing'")
      .number("base_conductance", &KnobSheet::base_conductance, Dimension::film_coefficient,
              contact_bounds, by_default("200 W/m2/K", estimate), "contact of body and wood")
      .number("wood_depth", &KnobSheet::wood_depth, Dimension::length, across,
              by_default("40 mm", practice),
              "behind the base; its far side is at the air's "
              "temperature");
}

Mapping<TubeSheet> tube_keys() {
  auto keys = piece<TubeSheet>("tube", "A ceramic tube through wood, the wire lying in its bore");
  return with_moisture(with_length(keys))
      .number("bore", &TubeSheet::bore, Dimension::length, across, required(), "diameter inside")
      .number("outer", &TubeSheet::outer, Dimension::length, across, required(), "diameter outside")
      .text_or_mapping("body", &TubeSheet::body, material_keys(), by_default("porcelain", practice),
                       "what it is made of")
      .text_or_mapping("gap", &TubeSheet::gap, material_keys(),
                       by_default("air", "nothing else is said to be in the bore"),
                       "between wire and bore; air carries radiation, too")
      .text_or_mapping("through", &TubeSheet::through, material_keys(),
                       by_default("softwood-dry", practice), "the wood, or 'nothing'")
      .number("wood", &TubeSheet::wood, Dimension::length, along_the_run,
              by_default("51 mm", "common practice, no source: full-cut two-inch framing"),
              "of that wood along the wire, in the middle of the tube and no longer than it")
      .number("wood_radius", &TubeSheet::wood_radius, Dimension::length, across,
              by_default("45 mm",
                         "common practice, no source: half a four-inch face, rounded to a "
                         "circle"),
              "from the axis to where the wood ends; no heat passes there");
}

Mapping<SleeveSheet> sleeve_keys() {
  auto keys = piece<SleeveSheet>("sleeve", "Tubing slipped over the wire");
  return with_facing(with_length(keys))
      .text_or_mapping("material", &SleeveSheet::material, material_keys(),
                       by_default("woven-sleeving", practice), "what it is made of")
      .number("wall", &SleeveSheet::wall, Dimension::length, across, required(), "thickness")
      .choice("fit", &SleeveSheet::fit,
              {{"tight", "touches the wire all round"}, {"loose", "with an air gap"}}, required(),
              "how it sits; a loose sleeve warms the wire where a tight one may cool it")
      .number("gap", &SleeveSheet::gap, Dimension::length, across, optional(),
              "air between wire and a loose sleeve, radially; 0.5 mm where not given (common "
              "practice, no source)");
}

Mapping<SpliceSheet> splice_keys() {
  auto keys = piece<SpliceSheet>("splice", "A joint in the wire");
  return with_facing(with_length(keys))
      .number("resistance", &SpliceSheet::resistance, Dimension::resistance, {0.0, 1e3}, optional(),
              "at 20 degC on top of the wire's own, rising with temperature as the metal's does; "
              "often unknown: give a band. Needed where 'heat' is not given")
      .number("heat", &SpliceSheet::heat, Dimension::power, {0.0, 1e4, true}, optional(),
              "in place of 'resistance': heat the joint makes while any current flows, whatever "
              "the current. A glowing connection is not ohmic and has been seen to make up to 35 W "
              "at 15 A (NBSIR 76-1011); the current feels it as a voltage of heat / current")
      .choice("kind", &SpliceSheet::kind,
              {{"soldered-taped", "twisted and soldered, wrapped in tape"},
               {"twisted-taped", "twisted only, wrapped in tape"},
               {"loose-taped",
                "come loose under its tape: may glow, and then has no resistance to "
                "speak of; give 'heat' or a band of 'resistance'"},
               {"bare", "nothing wrapped round it"}},
              by_default("soldered-taped", practice), "how it was made")
      .text_or_mapping("tape", &SpliceSheet::tape, material_keys(),
                       by_default("friction-tape", practice), "of a taped joint")
      .number("tape_thickness", &SpliceSheet::tape_thickness, Dimension::length, across,
              by_default("1.6 mm", "common practice, no source: four layers of 0.4 mm"),
              "of the whole wrapping");
}

Mapping<FilledSheet> filled_keys() {
  auto keys = piece<FilledSheet>("filled", "Wire buried in loose fill");
  return with_length(keys)
      .text_or_mapping("fill", &FilledSheet::fill, material_keys(), required(), "the fill")
      .number(
          "to", &FilledSheet::to, Dimension::length, {0.0, 10.0, true}, optional(),
          "distance from the wire's axis to where the fill ends, held at the air's temperature; "
          "this, 'slab' or 'depth' has to be there")
      .number("slab", &FilledSheet::slab, Dimension::length, {0.0, 10.0, true}, optional(),
              "in place of 'to': its thickness from face to face, both held at the air's "
              "temperature, the wire midway")
      .number(
          "depth", &FilledSheet::depth, Dimension::length, {0.0, 10.0, true}, optional(),
          "in place of 'to': how deep the wire's axis lies under its one free face, held at the "
          "air's temperature")
      .number("conductivity", &FilledSheet::conductivity, Dimension::conductivity, {1e-4, 1e3},
              optional(), "instead of the fill's own")
      .mapping("neighbour", &FilledSheet::neighbour, neighbour_keys(), optional(),
               "a like wire with the same current beside this one: the return leg");
}

}  // namespace

const PieceKinds& piece_kinds() {
  static const auto kinds = [] {
    PieceKinds all("piece", "A piece of the run");
    all.add("lug", lug_keys())
        .add("cut-end", cut_end_keys())
        .add("open", open_keys())
        .add("knob", knob_keys())
        .add("tube", tube_keys())
        .add("sleeve", sleeve_keys())
        .add("splice", splice_keys())
        .add("filled", filled_keys());
    return all;
  }();
  return kinds;
}

const PieceSheet& base(const AnyPieceSheet& piece) {
  return std::visit([](const auto& held) -> const PieceSheet& { return held; }, piece);
}

PieceSheet& base(AnyPieceSheet& piece) {
  return std::visit([](auto& held) -> PieceSheet& { return held; }, piece);
}

const std::optional<FacingSheet>& facing_of(const AnyPieceSheet& piece) {
  static const std::optional<FacingSheet> none;
  return std::visit(
      [](const auto& held) -> const std::optional<FacingSheet>& {
        if constexpr (requires { held.facing; }) {
          return held.facing;
        } else {
          return none;
        }
      },
      piece);
}

}  // namespace ampstair::scenario
