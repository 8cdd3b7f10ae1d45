// SPDX-License-Identifier: MIT
#include <type_traits>

#include "scenario/run_sheet.hpp"

namespace ampstair::scenario {

namespace {

using sheet::by_default;
using sheet::Dimension;
using sheet::Mapping;
using sheet::optional;
using sheet::required;

const Mapping<AirSheet>& air_keys() {
  static const auto keys =
      Mapping<AirSheet>("air", "The air from a moment on, until the next entry")
          .number("at", &AirSheet::at, Dimension::duration, {0.0, 1e9},
                  by_default("0 min", "from the start"), "from when on")
          .number("temperature", &AirSheet::temperature, Dimension::temperature, air_temperatures,
                  optional(), "of the air; without it as in the entry before")
          .number("speed", &AirSheet::speed, Dimension::speed, {0.0, 50.0}, optional(),
                  "across the wire; without it as in the entry before, still air in the first")
          .truth("ramp", &AirSheet::ramp, false,
                 "the air comes to this entry along a straight line from the one before, which "
                 "else holds until then")
          .text("csv", &AirSheet::csv, optional(),
                "a comma-separated file with the whole history, in place of all else: a header "
                "'time [min], temperature [degC], speed [m/s]' (any unit; speed may be left out), "
                "then rows, joined by straight lines; its name as seen from the sheet's folder")
          .alone("temperature")
          .place(&AirSheet::place);
  return keys;
}

const Mapping<WallSheet>& wall_keys() {
  static const auto keys =
      Mapping<WallSheet>("walls", "What the wire radiates to, from a moment on")
          .number("at", &WallSheet::at, Dimension::duration, {0.0, 1e9},
                  by_default("0 min", "from the start"), "from when on")
          .number("temperature", &WallSheet::temperature, Dimension::temperature, air_temperatures,
                  required(), "of the walls")
          .truth("ramp", &WallSheet::ramp, false,
                 "the walls come to this entry along a straight line from the one before")
          .alone("temperature")
          .place(&WallSheet::place);
  return keys;
}

const Mapping<FilmSheet>& film_keys() {
  static const auto keys =
      Mapping<FilmSheet>("film",
                         "A fixed exchange with the air in place of the correlations, for handbook "
                         "cases and verification")
          .number("coefficient", &FilmSheet::coefficient, Dimension::film_coefficient, {0.0, 1e5},
                  required(), "of convection")
          .number("emissivity", &FilmSheet::emissivity, Dimension::ratio, {0.0, 1.0}, optional(),
                  "of every exposed surface; without it each surface keeps its own");
  return keys;
}

/// Of the whole run a value is needed, of a piece only what differs.
sheet::Need unless(bool of_piece, const char* text, const char* source) {
  return of_piece ? optional() : by_default(text, source);
}

template <class T>
Mapping<T>& add_around(Mapping<T>& keys) {
  constexpr bool of_piece = std::is_same_v<T, PieceAroundSheet>;
  return keys
      .list("air", &T::air, air_keys(), optional(),
            "the air: one temperature, or entries {at:, temperature:, speed:} in order of time")
      .example("20 degC")
      .list(
          "walls", &T::walls, wall_keys(), optional(),
          "what the wire radiates to: one temperature, or entries {at:, temperature:} in order of "
          "time; without it as warm as the air")
      .example("20 degC")
      .choice("still_air", &T::still_air,
              {{"churchill-chu-1975", "Churchill & Chu 1975, one form for all Rayleigh numbers"},
               {"morgan-1975",
                "Morgan 1975, a power law in each of five bands; wire comes out "
                "some kelvin cooler"}},
              unless(of_piece, "churchill-chu-1975", "smooth over the whole range of wires"),
              "correlation of free convection from a horizontal wire; the two differ as measured "
              "data do")
      .number("convection", &T::convection, Dimension::ratio, {0.1, 10.0},
              unless(of_piece, "1", "the correlations as published"),
              "times what the correlations of still and moving air give; a band says how well they "
              "are trusted")
      .number("altitude", &T::altitude, Dimension::length, {-500.0, 11000.0},
              unless(of_piece, "0 m", "sea level"),
              "above the sea; the air is thinner by the standard atmosphere's pressure there")
      .mapping("film", &T::film, film_keys(), optional(), "fixes the exchange with the air")
      .place(&T::place);
}

}  // namespace

const Mapping<AroundSheet>& around_keys() {
  static const auto keys = [] {
    Mapping<AroundSheet> mapping("around", "What surrounds the run");
    add_around(mapping);
    return mapping;
  }();
  return keys;
}

const Mapping<NeighbourSheet>& neighbour_keys() {
  static const auto keys =
      Mapping<NeighbourSheet>("neighbour", "A like wire beside this one, with the same current")
          .number("distance", &NeighbourSheet::distance, Dimension::length, {0.0, 10.0, true},
                  required(), "from axis to axis")
          .alone("distance");
  return keys;
}

const Mapping<PieceAroundSheet>& piece_around_keys() {
  static const auto keys = [] {
    Mapping<PieceAroundSheet> mapping(
        "around", "What surrounds this piece; whatever is not given is as for the whole run");
    add_around(mapping);
    mapping
        .text_or_mapping("fill", &PieceAroundSheet::fill, materials::material_keys(), optional(),
                         "loose fill that buries an open piece")
        .number("to", &PieceAroundSheet::to, Dimension::length, {0.0, 10.0, true}, optional(),
                "with 'fill': distance from the wire's axis to where the fill ends, held at the "
                "air's temperature")
        .number("slab", &PieceAroundSheet::slab, Dimension::length, {0.0, 10.0, true}, optional(),
                "with 'fill', in place of 'to': its thickness from face to face, both held at the "
                "air's temperature, the wire midway")
        .number("depth", &PieceAroundSheet::depth, Dimension::length, {0.0, 10.0, true}, optional(),
                "with 'fill', in place of 'to': how deep the wire's axis lies under its one free "
                "face, held at the air's temperature")
        .number("conductivity", &PieceAroundSheet::conductivity, Dimension::conductivity,
                {1e-4, 1e3}, optional(), "with 'fill': instead of the fill's own")
        .text_or_mapping("bay", &PieceAroundSheet::bay, bay_keys(), optional(),
                         "a closed bay this piece lies in; the air of 'around' is then the air "
                         "outside it. A name stands for the bay of an earlier piece")
        .mapping("neighbour", &PieceAroundSheet::neighbour, neighbour_keys(), optional(),
                 "a like wire with the same current beside this one: the return leg");
    return mapping;
  }();
  return keys;
}

}  // namespace ampstair::scenario
