// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "scenario/building.hpp"
#include "scenario/parts.hpp"

namespace ampstair::scenario {

namespace {

using quantities::Dimension;
using sheet::Number;

constexpr double pi = 3.14159265358979323846;
constexpr double loose_gap = 0.5e-3;  // m

/// Builds the kind of one piece; `path` is "run/<name>".
class PieceBuilder {
 public:
  PieceBuilder(const Wire& wire, std::string path, const Building& building)
      : wire_(wire), path_(std::move(path)), building_(building) {}

  decltype(Piece::kind) operator()(const LugSheet& sheet) const {
    Lug lug;
    lug.contact_resistance = use("contact", sheet.contact, Dimension::resistance);
    lug.mass = use("mass", sheet.mass, Dimension::mass);
    const double barrel = use("barrel", sheet.barrel, Dimension::length);
    lug.contact_conductance =
        use("contact_conductance", sheet.contact_conductance, Dimension::film_coefficient) * pi *
        wire_.diameter * barrel;
    lug.surface = use("surface", sheet.surface, Dimension::area);
    lug.sinks_to_lead = sheet.sinks_to.value == "supply-lead";
    return lug;
  }

  decltype(Piece::kind) operator()(const CutEndSheet& sheet) const {
    CutEnd end;
    end.insulated = sheet.insulated;
    if (sheet.held_at.present()) {
      end.held_at = use("held_at", sheet.held_at, Dimension::temperature);
    }
    if (sheet.insulated && sheet.held_at.present()) {
      building_.problems.error("E185", sheet.held_at.place,
                               "a cut end cannot be both insulated and held at a temperature.",
                               "leave out 'insulated' or 'held_at'");
    }
    return end;
  }

  decltype(Piece::kind) operator()(const OpenSheet& sheet) const {
    if (!sheet.around || !sheet.around->fill.present()) {
      return Open{};
    }
    return filled(*sheet.around, sheet.around->place);
  }

  decltype(Piece::kind) operator()(const KnobSheet& sheet) const {
    Knob knob;
    knob.body = building_.material(sheet.body, path_ + "/body", "ceramic");
    knob.mass = use("mass", sheet.mass, Dimension::mass);
    knob.height = use("height", sheet.height, Dimension::length);
    knob.covers = use("covers", sheet.covers, Dimension::ratio);
    knob.grip_conductance =
        use("grip_conductance", sheet.grip_conductance, Dimension::film_coefficient);
    knob.wood = building_.material_or_nothing(sheet.fixed_to, path_ + "/fixed_to", "wood");
    if (sheet.fixed_to.text.value != "nothing") {
      knob.base_conductance =
          use("base_conductance", sheet.base_conductance, Dimension::film_coefficient);
      knob.wood_depth = use("wood_depth", sheet.wood_depth, Dimension::length);
    }
    knob.wood = with_moisture(knob.wood, sheet.fixed_to, sheet.moisture);
    return knob;
  }

  decltype(Piece::kind) operator()(const TubeSheet& sheet) const {
    Tube tube;
    tube.body = building_.material(sheet.body, path_ + "/body", "ceramic");
    tube.bore = use("bore", sheet.bore, Dimension::length);
    tube.outer = use("outer", sheet.outer, Dimension::length);
    if (sheet.gap.text.value != "air") {
      tube.gap = building_.material(sheet.gap, path_ + "/gap", "gap");
    }
    tube.wood = building_.material_or_nothing(sheet.through, path_ + "/through", "wood");
    if (sheet.through.text.value != "nothing") {
      tube.wood_thickness = wood_along(sheet);
      tube.wood_radius = use("wood_radius", sheet.wood_radius, Dimension::length);
    }
    tube.wood = with_moisture(tube.wood, sheet.through, sheet.moisture);
    check_fits(sheet, tube);
    return tube;
  }

  decltype(Piece::kind) operator()(const SleeveSheet& sheet) const {
    Sleeve sleeve;
    sleeve.material = building_.material(sheet.material, path_ + "/material", "sleeve");
    sleeve.wall = use("wall", sheet.wall, Dimension::length);
    const bool loose = sheet.fit.value == "loose";
    if (sheet.gap.present() && sheet.fit.value == "tight") {
      building_.problems.error("E181", sheet.gap.place, "a tight sleeve has no gap.",
                               "write  fit: loose, or leave out 'gap'");
    } else if (sheet.gap.present()) {
      sleeve.gap = use("gap", sheet.gap, Dimension::length);
    } else if (loose) {
      sleeve.gap = building_.values.use(path_ + "/gap", loose_gap, Dimension::length,
                                        "common practice, no source: a loose sleeve", true);
    }
    return sleeve;
  }

  decltype(Piece::kind) operator()(const SpliceSheet& sheet) const {
    Splice splice;
    check_joint(sheet);
    if (sheet.heat.present()) {
      splice.heat = use("heat", sheet.heat, Dimension::power);
    } else if (sheet.resistance.present()) {
      splice.resistance = use("resistance", sheet.resistance, Dimension::resistance);
    }
    if (sheet.kind.value != "bare") {
      Layer tape;
      tape.material = building_.material(sheet.tape, path_ + "/tape", "tape");
      tape.part = tape.material ? tape.material->part : "tape";
      tape.thickness = use("tape_thickness", sheet.tape_thickness, Dimension::length);
      splice.wrapping.push_back(std::move(tape));
    }
    return splice;
  }

  decltype(Piece::kind) operator()(const FilledSheet& sheet) const {
    return filled(sheet, sheet.place);
  }

 private:
  double use(const char* key, const Number& number, Dimension dimension) const {
    return building_.values.use(path_ + "/" + key, number, dimension);
  }

  /// The wood with the moisture a piece gives it.
  MaterialPtr with_moisture(const MaterialPtr& wood, const MaterialChoice& choice,
                            const Number& moisture) const {
    if (moisture.present() && choice.text.value == "nothing") {
      building_.problems.error("E171", moisture.place, "this key means nothing without wood.",
                               "name the wood, or leave it out");
    }
    return moist(wood, moisture, path_, building_);
  }

  /// Wood in the middle of the tube; the usual thickness is cut to a shorter tube's length.
  double wood_along(const TubeSheet& sheet) const {
    if (sheet.wood.best <= sheet.length.best || !sheet.length.present()) {
      return use("wood", sheet.wood, Dimension::length);
    }
    if (sheet.wood.given()) {
      building_.problems.error("E180", sheet.wood.place,
                               fmt::format("the wood ({}) is longer than its tube ({}).",
                                           sheet.wood.text, sheet.length.text),
                               "give the wood's thickness along the wire, at most the tube's "
                               "length");
    }
    return building_.values.use(path_ + "/wood", sheet.length.best, Dimension::length,
                                sheet.wood.from + ", cut to the tube's length", true);
  }

  void check_joint(const SpliceSheet& sheet) const {
    if (sheet.heat.present() && sheet.resistance.present()) {
      building_.problems.error("E186", sheet.heat.place,
                               "a splice has either 'resistance' or 'heat'.",
                               "keep 'heat' for a joint that glows, 'resistance' for any other");
    } else if (!sheet.heat.present() && !sheet.resistance.present() &&
               !building_.problems.has_errors()) {
      building_.problems.error(
          "E186", sheet.place,
          fmt::format("splice '{}' has neither 'resistance' nor 'heat'.", sheet.name.value),
          "add  resistance: {best: 0.12 mohm, low: 0.05 mohm, high: 1.6 mohm, "
          "from: unknown}");
    }
    if (sheet.kind.value == "loose-taped" && sheet.resistance.present() && !sheet.resistance.low) {
      building_.problems.warning(
          "W264", sheet.resistance.place,
          fmt::format("splice '{}' is loose, but its resistance is one number ({}); a glowing "
                      "connection is not ohmic.",
                      sheet.name.value, sheet.resistance.text),
          "give  heat: 10 W  in its place, or a band of resistances");
    }
  }

  void check_fits(const TubeSheet& sheet, const Tube& tube) const {
    const double wire = 2.0 * outer_radius(wire_);
    if (sheet.bore.present() && tube.bore <= wire) {
      building_.problems.error(
          "E180", sheet.bore.place,
          fmt::format("the wire ({:.2f} mm with its covering) does not go into "
                      "a bore of {}.",
                      1e3 * wire, sheet.bore.text),
          "'bore' is the tube's inner diameter");
    }
    if (sheet.bore.present() && sheet.outer.present() && tube.outer <= tube.bore) {
      building_.problems.error("E180", sheet.outer.place,
                               fmt::format("the tube's outside ({}) is not larger than its bore "
                                           "({}).",
                                           sheet.outer.text, sheet.bore.text),
                               "both are diameters");
    }
    if (tube.wood && sheet.outer.present() && 2.0 * tube.wood_radius <= tube.outer) {
      building_.problems.error("E180", sheet.wood_radius.place, "the wood ends inside the tube.",
                               "'wood_radius' is counted from the wire's axis");
    }
  }

  Filled filled(const FillSheet& sheet, const sheet::Place& place) const {
    Filled filled;
    filled.fill = building_.material(sheet.fill, path_ + "/fill", "fill");
    if (filled.fill && sheet.conductivity.present()) {
      auto own = std::make_shared<materials::Material>(*filled.fill);
      own->conductivity = {{0.0},
                           {use("conductivity", sheet.conductivity, Dimension::conductivity)}};
      filled.fill = own;
    }
    filled.radius = fill_radius(sheet, place);
    if (sheet.neighbour) {
      const auto& distance = sheet.neighbour->distance;
      filled.neighbour = use("neighbour/distance", distance, Dimension::length);
      if (distance.present() && filled.neighbour <= 2.0 * outer_radius(wire_)) {
        building_.problems.error("E180", distance.place,
                                 fmt::format("two wires of {:.2f} mm do not fit {} apart.",
                                             2e3 * outer_radius(wire_), distance.text),
                                 "'distance' is counted from axis to axis");
      }
    }
    return filled;
  }

  /// Where the fill ends, or the radius at which a ring of it resists as its shape does: between
  /// two faces ln(8 z / (pi D)) / (2 pi k) with z half the thickness, under one face acosh(2 z / D)
  /// / (2 pi k) with z the depth, per length of a wire of diameter D (Incropera & DeWitt table 4.1,
  /// from memory, very sure).
  double fill_radius(const FillSheet& sheet, const sheet::Place& place) const {
    std::vector<const Number*> given;
    for (const auto* reach : {&sheet.to, &sheet.slab, &sheet.depth}) {
      if (reach->given()) {
        given.push_back(reach);
      }
    }
    if (given.size() != 1) {
      const bool spoilt = building_.problems.has_errors();
      if (given.empty() && !spoilt) {
        building_.problems.error("E122", place, "how far the fill reaches is not given.",
                                 "add  to: 150 mm  (from the wire's axis), or  slab: 90 mm  "
                                 "(between two faces), or  depth: 50 mm  (under one face)");
      } else if (given.size() > 1) {
        building_.problems.error("E199", given[1]->place,
                                 "'to', 'slab' and 'depth' are three ways to say how far the fill "
                                 "reaches.",
                                 "keep one of them");
      }
      return 0.0;
    }
    const double wire = outer_radius(wire_);
    const double reach = given.front()->best;
    if (sheet.slab.given() ? reach <= 2.0 * wire : reach <= wire) {
      building_.problems.error(
          "E180", given.front()->place,
          fmt::format("the fill ends inside the wire ({:.2f} mm from its axis).", 1e3 * wire),
          "'to' and 'depth' are counted from the wire's axis, 'slab' from face to face");
      return 0.0;
    }
    if (sheet.to.given()) {
      return use("to", sheet.to, Dimension::length);
    }
    if (sheet.slab.given()) {
      const double half = 0.5 * use("slab", sheet.slab, Dimension::length);
      return building_.values.use(path_ + "/to", 4.0 * half / pi, Dimension::length,
                                  "radius that resists as a slab does with the wire midway", false);
    }
    const double z = use("depth", sheet.depth, Dimension::length);
    return building_.values.use(path_ + "/to", z + std::sqrt(z * z - wire * wire),
                                Dimension::length,
                                "radius that resists as fill does under one face", false);
  }

  const Wire& wire_;
  std::string path_;
  const Building& building_;
};

/// The key that gives a piece its length along the run; null for lugs and cut ends.
struct LengthKey {
  const Number* operator()(const LugSheet&) const { return nullptr; }
  const Number* operator()(const CutEndSheet&) const { return nullptr; }
  const Number* operator()(const KnobSheet& sheet) const { return &sheet.grips; }
  template <class Sheet>
  const Number* operator()(const Sheet& sheet) const {
    return &sheet.length;
  }
};

/// Vertical pieces that follow each other are one height to the air that rises along them.
void add_up_heights(const RunSheet& sheet, Scenario& scenario) {
  const auto is_vertical = [&](std::size_t i) {
    return base(sheet.run[i]).runs.value == "vertical";
  };
  for (std::size_t i = 0; i < scenario.run.size();) {
    double height = 0.0;
    std::size_t end = i;
    for (; end < scenario.run.size() && is_vertical(end); ++end) {
      height += scenario.run[end].length;
    }
    for (; i < end; ++i) {
      scenario.run[i].height = height;
    }
    i = std::max(end, i + 1);
  }
}

}  // namespace

std::optional<std::vector<Extent>> extents(const RunSheet& sheet) {
  std::vector<Extent> run;
  double begin = 0.0;
  for (const auto& any : sheet.run) {
    const Number* length = std::visit(LengthKey{}, any);
    if (!base(any).name.present() || (length != nullptr && !length->present())) {
      return std::nullopt;
    }
    run.push_back({base(any).name.value, begin, length == nullptr ? 0.0 : length->best});
    begin = run.back().end();
  }
  return run.empty() ? std::nullopt : std::optional(run);
}

void build_run(const RunSheet& sheet, const Building& building, Scenario& scenario) {
  double begin = 0.0;
  for (const auto& any : sheet.run) {
    const std::string path = "run/" + base(any).name.value;
    Piece piece;
    piece.name = base(any).name.value;
    piece.begin = begin;
    if (const Number* length = std::visit(LengthKey{}, any)) {
      const char* key = std::holds_alternative<KnobSheet>(any) ? "/grips" : "/length";
      piece.length = building.values.use(path + key, *length, Dimension::length);
    }
    piece.around = build_piece_surroundings(any, path, building, scenario);
    piece.kind = std::visit(PieceBuilder(scenario.wire, path, building), any);
    if (const auto& facing = facing_of(any)) {
      check_facing(*facing, piece, scenario.surroundings[piece.around], building.problems);
      piece.facing = build_facing(*facing, path + "/facing", building);
    }
    begin = piece.end();
    scenario.run.push_back(std::move(piece));
  }
  add_up_heights(sheet, scenario);
}

}  // namespace ampstair::scenario
