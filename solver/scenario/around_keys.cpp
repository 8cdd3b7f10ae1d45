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

constexpr sheet::Bounds air_temperatures = {173.15, 473.15};  // K; correlations end there

const Mapping<AirSheet>& air_keys() {
  static const auto keys =
      Mapping<AirSheet>("air", "The air from a moment on, until the next entry")
          .number("at", &AirSheet::at, Dimension::duration, {0.0, 1e9},
                  by_default("0 min", "from the start"), "from when on")
          .number("temperature", &AirSheet::temperature, Dimension::temperature, air_temperatures,
                  optional(), "of the air; without it as in the entry before")
          .number("speed", &AirSheet::speed, Dimension::speed, {0.0, 50.0}, optional(),
                  "across the wire; without it as in the entry before, still air in the first")
          .alone("temperature")
          .place(&AirSheet::place);
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
      .number("walls", &T::walls, Dimension::temperature, air_temperatures, optional(),
              "of what the wire radiates to; without it the air's")
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
        .number("conductivity", &PieceAroundSheet::conductivity, Dimension::conductivity,
                {1e-4, 1e3}, optional(), "with 'fill': instead of the fill's own");
    return mapping;
  }();
  return keys;
}

}  // namespace ampstair::scenario
