// SPDX-License-Identifier: MIT
#pragma once

// A small sheet of our own for the tests of sheet/, with one key of every form.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "sheet/mapping.hpp"

namespace rig {

using namespace ampstair::sheet;
using ampstair::diagnostics::ProblemList;

struct Stuff {
  Table conductivity;
  Number density;
};
struct Layer {
  TextOr<Stuff> material;
  Number thickness;
  Number emissivity;
};
struct Around {
  Number air;
  Number speed;
};
struct Piece {
  Text word;
  Text name;
  std::optional<Around> around;
  Place place;
};
struct Open : Piece {
  Number length;
};
struct Tube : Piece {
  Number length;
  Number bore;
  Text fit;
  bool glazed = false;
};
struct Step {
  Number hold;
  Number duration;
};
struct Camera {
  std::vector<Text> aim;
  Number emissivity_set;
};
struct Instruments {
  std::optional<Camera> camera;
};
struct Variant {
  Text name;
  std::vector<Node> change;
};
struct Sheet {
  Text title;
  Text gauge;
  Number members;
  std::vector<Layer> layers;
  std::vector<std::variant<Open, Tube>> run;
  std::optional<Around> around;
  std::vector<Step> staircase;
  std::optional<Instruments> instruments;
  std::vector<Variant> arrangements;
};

inline const Mapping<Around>& around_keys() {
  static const auto keys =
      Mapping<Around>("surroundings", "What the wire stands in")
          .number("air", &Around::air, Dimension::temperature, {}, required(), "of the air")
          .number("speed", &Around::speed, Dimension::speed, {0.0, 20.0},
                  by_default("0 m/s", "still air"), "of the air across the wire");
  return keys;
}

inline const Mapping<Layer>& layer_keys() {
  static const auto stuff =
      Mapping<Stuff>("material", "A material declared on the spot")
          .table("conductivity", &Stuff::conductivity, Dimension::conductivity, {0.0, 500.0, true},
                 required(), "of heat")
          .number("density", &Stuff::density, Dimension::density, {0.0, 25000.0, true},
                  by_default("1200 kg/m3", "our guess for the tests"), "at 20 degC");
  static const auto keys =
      Mapping<Layer>("layer", "One layer of the covering")
          .text_or_mapping("material", &Layer::material, stuff, required(), "what it is made of")
          .number("thickness", &Layer::thickness, Dimension::length, {0.0, 0.1, true}, required(),
                  "radial")
          .number("emissivity", &Layer::emissivity, Dimension::ratio, {0.02, 1.0},
                  by_default("0.90", "dull surface"), "of its surface");
  return keys;
}

template <class T>
Mapping<T> piece_keys(std::string name, std::string help) {
  return Mapping<T>(std::move(name), std::move(help))
      .text("name", &T::name, optional(), "how other entries refer to this piece")
      .number("length", &T::length, Dimension::length, {0.0, 1000.0, true}, required(),
              "along the wire")
      .mapping("around", &T::around, around_keys(), optional(), "in place of the run's own")
      .place(&T::place)
      .word(&T::word);
}

inline const Alternatives<Open, Tube>& pieces() {
  static const auto all =
      Alternatives<Open, Tube>("piece", "what kind of piece this is")
          .add("open", piece_keys<Open>("open", "Wire in the open"))
          .add("tube",
               piece_keys<Tube>("tube", "Wire in a ceramic tube")
                   .number("bore", &Tube::bore, Dimension::length, {0.0, 0.1, true}, required(),
                           "inner diameter")
                   .choice("fit", &Tube::fit, {{"tight", "touches"}, {"loose", "leaves air"}},
                           by_default("loose", "usual"), "how the wire sits")
                   .truth("glazed", &Tube::glazed, false, "whether the ceramic is glazed"));
  return all;
}

inline const Mapping<Sheet>& sheet_keys() {
  static const auto camera =
      Mapping<Camera>("camera", "An infrared camera")
          .texts("aim", &Camera::aim, optional(), "places it looks at")
          .number("emissivity_set", &Camera::emissivity_set, Dimension::ratio, {0.02, 1.0},
                  by_default("0.95", "what cameras start with"), "as set on it");
  static const auto instruments =
      Mapping<Instruments>("instruments", "What was read")
          .mapping("camera", &Instruments::camera, camera, optional(), "an infrared camera");
  static const auto step =
      Mapping<Step>("step", "One step of current")
          .number("hold", &Step::hold, Dimension::current, {0.0, 500.0}, required(), "current held")
          .number("for", &Step::duration, Dimension::duration, {0.0, {}, true}, required(),
                  "how long");
  static const auto arrangement =
      Mapping<Variant>("arrangement", "The same with changes")
          .text("name", &Variant::name, required(), "of the arrangement")
          .entries("change", &Variant::change, "a piece's name and the keys that differ",
                   required(), "what differs");
  static const auto keys =
      Mapping<Sheet>("test sheet", "A sheet for the tests")
          .text("title", &Sheet::title, optional(), "shown in reports")
          .text("gauge", &Sheet::gauge, optional(), "of the wire")
          .number("members", &Sheet::members, Dimension::count, {1.0, 1e6}, optional(), "how many")
          .list("layers", &Sheet::layers, layer_keys(), optional(), "from the conductor outwards")
          .alternatives("run", &Sheet::run, pieces(), optional(), "pieces in order")
          .mapping("around", &Sheet::around, around_keys(), optional(), "the run's surroundings")
          .list("staircase", &Sheet::staircase, step, optional(), "steps in order")
          .mapping("instruments", &Sheet::instruments, instruments, optional(), "what was read")
          .list("arrangements", &Sheet::arrangements, arrangement, optional(), "variants");
  return keys;
}

inline Sheet read_sheet(std::string_view text, ProblemList& problems) {
  return read(read_text(text, "s.yaml", problems), sheet_keys(), problems);
}

/// "2:5 E110 what | remedy" of every fault, in order.
inline std::vector<std::string> faults(std::string_view text) {
  ProblemList problems;
  read_sheet(text, problems);
  std::vector<std::string> told;
  for (const auto& p : problems.sorted()) {
    told.push_back(std::to_string(p.place.line) + ":" + std::to_string(p.place.column) + " " +
                   p.code + " " + p.what + (p.remedy.empty() ? "" : " | " + p.remedy));
  }
  return told;
}

/// "2:5 E110" of every fault, in order.
inline std::vector<std::string> codes(std::string_view text) {
  std::vector<std::string> told = faults(text);
  for (auto& fault : told) {
    fault.erase(fault.find(' ', fault.find(' ') + 1));
  }
  return told;
}

using Told = std::vector<std::string>;

}  // namespace rig
