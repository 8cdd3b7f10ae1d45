// SPDX-License-Identifier: MIT
#include "scenario/run_sheet.hpp"

// Keys that a march does not read: checked here, kept in the record with the sheet's text, and read
// by what comes after it.

namespace ampstair::scenario {

namespace {

using sheet::by_default;
using sheet::Dimension;
using sheet::Mapping;
using sheet::optional;
using sheet::required;

constexpr sheet::Bounds temperatures = {0.0, 4000.0};  // K

const Mapping<OpeningSheet>& opening_keys() {
  static const auto keys =
      Mapping<OpeningSheet>("opening", "A current at which the device has to open")
          .number("times", &OpeningSheet::times, Dimension::ratio, {1.0, 1e4}, required(),
                  "of the rating")
          .number("within", &OpeningSheet::within, Dimension::duration, {0.0, 1e9, true},
                  required(), "latest time to open");
  return keys;
}

const Mapping<CameraSheet>& camera_keys() {
  static const auto keys =
      Mapping<CameraSheet>("camera", "An infrared camera")
          .texts("aim", &CameraSheet::aim, required(), "places it looks at")
          .number("emissivity_set", &CameraSheet::emissivity_set, Dimension::ratio, {0.02, 1.0},
                  required(), "set on the camera")
          .number("reflected", &CameraSheet::reflected, Dimension::temperature, temperatures,
                  optional(), "reflected temperature; without it the air's")
          .number("ceiling", &CameraSheet::ceiling, Dimension::temperature, temperatures,
                  optional(), "highest temperature it can show")
          .number("distance", &CameraSheet::distance, Dimension::length, {0.0, 1e3, true},
                  optional(), "from the wire")
          .number("ifov", &CameraSheet::ifov, Dimension::angle, {0.0, 1.0, true}, optional(),
                  "angle that one pixel sees")
          .place(&CameraSheet::place);
  return keys;
}

const Mapping<ThermocoupleSheet>& thermocouple_keys() {
  static const auto keys =
      Mapping<ThermocoupleSheet>("thermocouple", "A thermocouple on the run")
          .text("name", &ThermocoupleSheet::name, required(), "its name")
          .text("spot", &ThermocoupleSheet::spot, required(), "where along the run")
          .text("under", &ThermocoupleSheet::under, optional(), "layer that covers its bead")
          .number("lag", &ThermocoupleSheet::lag, Dimension::duration, {0.0, 1e5}, optional(),
                  "time constant");
  return keys;
}

const Mapping<VoltmeterSheet>& voltmeter_keys() {
  static const auto keys =
      Mapping<VoltmeterSheet>("voltmeter", "A voltmeter on the run")
          .texts("taps", &VoltmeterSheet::taps, required(), "the two places it is joined to")
          .number("error", &VoltmeterSheet::error, Dimension::ratio, {0.0, 1.0}, optional(),
                  "of its reading");
  return keys;
}

const Mapping<TouchSheet>& touch_keys() {
  static const auto keys = Mapping<TouchSheet>("touch", "Places a hand is put to")
                               .texts("spots", &TouchSheet::spots, required(), "the places")
                               .number("contact", &TouchSheet::contact, Dimension::duration,
                                       {0.0, 1e5, true}, required(), "how long");
  return keys;
}

const Mapping<FindSheet>& find_keys() {
  static const auto largest =
      Mapping<LargestCurrentSheet>("largest current",
                                   "The largest current that keeps an item clear")
          .text("keep", &LargestCurrentSheet::keep, required(), "name of the watch item")
          .number("risk", &LargestCurrentSheet::risk, Dimension::ratio, {0.0, 1.0}, optional(),
                  "share of the members that may cross");
  static const auto keys = Mapping<FindSheet>("find", "What a study looks for")
                               .mapping("largest_current", &FindSheet::largest_current, largest,
                                        optional(), "largest current that keeps an item clear");
  return keys;
}

}  // namespace

const Mapping<DeviceSheet>& device_keys() {
  static const auto keys =
      Mapping<DeviceSheet>("device", "The overcurrent device of the circuit: its stated limits")
          .text("kind", &DeviceSheet::kind, required(), "what it is, as plug-fuse")
          .number("rating", &DeviceSheet::rating, Dimension::current, {0.0, 1e5, true}, required(),
                  "rated current")
          .number("must_hold", &DeviceSheet::must_hold, Dimension::ratio, {0.0, 1e3, true},
                  optional(), "multiple of the rating it has to carry for good")
          .list("must_open", &DeviceSheet::must_open, opening_keys(), optional(),
                "multiples of the rating at which it has to open in time")
          .text("from", &DeviceSheet::from, optional(), "where the limits came from");
  return keys;
}

const Mapping<InstrumentsSheet>& instruments_keys() {
  static const auto keys =
      Mapping<InstrumentsSheet>("instruments", "What was, or will be, read on the rig")
          .mapping("camera", &InstrumentsSheet::camera, camera_keys(), optional(),
                   "infrared camera")
          .list("thermocouples", &InstrumentsSheet::thermocouples, thermocouple_keys(), optional(),
                "thermocouples")
          .mapping("voltmeter", &InstrumentsSheet::voltmeter, voltmeter_keys(), optional(),
                   "voltmeter")
          .mapping("touch", &InstrumentsSheet::touch, touch_keys(), optional(), "touch");
  return keys;
}

const Mapping<StudySheet>& study_keys() {
  static const auto keys =
      Mapping<StudySheet>("study", "Many marches drawn from the bands")
          .number("members", &StudySheet::members, Dimension::count, {1.0, 1e7}, required(),
                  "how many marches")
          .number("seed", &StudySheet::seed, Dimension::count, {0.0, 9e15}, optional(),
                  "of the random numbers; needed with more than one member")
          .mapping("find", &StudySheet::find, find_keys(), optional(), "what to look for")
          .truth("rank", &StudySheet::rank, false, "rank the inputs by their weight")
          .place(&StudySheet::place);
  return keys;
}

}  // namespace ampstair::scenario
