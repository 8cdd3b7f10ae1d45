// SPDX-License-Identifier: MIT
#include "grid/sections.hpp"

#include <algorithm>
#include <memory>
#include <utility>

namespace ampstair::grid {

namespace {

using scenario::Piece;
using scenario::Scenario;

// Spacing along the run at the ends of a piece, as a part of the scenario's longest cell: where the
// outline steps, heat turns round a corner of a few millimetres; where only the heat made or the
// loss changes, the conductor smooths it over decimetres.
constexpr double at_a_step = 0.08;
constexpr double at_a_change = 0.3;

Band solid(scenario::MaterialPtr material, const char* part, double inner, double outer,
           double finest, double growth) {
  return {{std::move(material), {}, part}, inner, outer, finest, growth};
}

/// What one of two like wires has of a material that both heat: half of it carries and stores as
/// much for one as the whole does for both.
scenario::MaterialPtr half_of(const materials::Material& material) {
  auto half = std::make_shared<materials::Material>(material);
  half->density *= 0.5;
  for (double& conductivity : half->conductivity.value) {
    conductivity *= 0.5;
  }
  return half;
}

double outer_emissivity(const scenario::Wire& wire) {
  return (wire.layers.empty() ? wire.metal : wire.layers.back().material)->emissivity;
}

Band gap(const scenario::Wire& wire, double inner, double outer, double outer_emissivity_) {
  return {{nullptr, AirGap{inner, outer, outer_emissivity(wire), outer_emissivity_}, "gap"},
          inner,
          outer,
          (outer - inner) / 3.0,
          0.0};
}

class Builder {
 public:
  explicit Builder(const Scenario& scenario)
      : scenario_(scenario), radius_(covering_radius(scenario.wire)) {}

  std::vector<Section> build() {
    for (std::size_t i = 0; i < scenario_.run.size(); ++i) {
      const Piece& piece = scenario_.run[i];
      if (piece.length > 0.0) {
        Section section;
        section.begin = piece.begin;
        section.end = piece.end();
        section.piece = i;
        section.surroundings = piece.around;
        section.end_spacing = at_a_change;
        std::visit([&](const auto& kind) { add(kind, section); }, piece.kind);
      }
    }
    return std::move(sections_);
  }

 private:
  void add(const scenario::Lug&, const Section& section) { sections_.push_back(section); }
  void add(const scenario::CutEnd&, const Section& section) { sections_.push_back(section); }
  void add(const scenario::Open&, const Section& section) { sections_.push_back(section); }

  void add(const scenario::Knob& knob, Section section) {
    section.exposed_part = 1.0 - knob.covers;
    sections_.push_back(std::move(section));
  }

  void add(const scenario::Splice& splice, Section section) {
    double inner = radius_;
    for (const auto& layer : splice.wrapping) {
      const double outer = inner + layer.thickness;
      section.bands.push_back(
          solid(layer.material, layer.part.c_str(), inner, outer, layer.thickness / 3.0, 0.0));
      inner = outer;
    }
    sections_.push_back(std::move(section));
  }

  void add(const scenario::Sleeve& sleeve, Section section) {
    const double inner = radius_ + sleeve.gap;
    if (sleeve.gap > 0.0) {
      section.bands.push_back(gap(scenario_.wire, radius_, inner, sleeve.material->emissivity));
    }
    section.bands.push_back(
        solid(sleeve.material, "sleeve", inner, inner + sleeve.wall, sleeve.wall / 3.0, 0.0));
    section.end_spacing = at_a_step;
    sections_.push_back(std::move(section));
  }

  void add(const scenario::Filled& filled, Section section) {
    const bool shared = filled.neighbour > 0.0 && filled.neighbour < filled.radius;
    const double own = shared ? filled.neighbour : filled.radius;
    section.bands.push_back(solid(filled.fill, "fill", radius_, own, 0.12 * radius_, 0.14));
    if (shared) {
      section.bands.push_back(solid(half_of(*filled.fill), "fill", own, filled.radius,
                                    0.12 * radius_ + 0.14 * (own - radius_), 0.14));
    }
    section.outside = Section::Outside::held;
    section.end_spacing = at_a_step;
    sections_.push_back(std::move(section));
  }

  void add(const scenario::Tube& tube, const Section& whole) {
    Section bare = whole;
    bare.end_spacing = at_a_step;
    const double bore = 0.5 * tube.bore;
    const double outer = 0.5 * tube.outer;
    if (tube.gap) {
      bare.bands.push_back(solid(tube.gap, "gap", radius_, bore, (bore - radius_) / 4.0, 0.0));
    } else {
      bare.bands.push_back(gap(scenario_.wire, radius_, bore, tube.body->emissivity));
    }
    bare.bands.push_back(solid(tube.body, "ceramic", bore, outer, (outer - bore) / 6.0, 0.0));
    if (!tube.wood) {
      sections_.push_back(std::move(bare));
      return;
    }
    Section inside = bare;
    inside.bands.push_back(solid(tube.wood, "wood", outer, tube.wood_radius, 0.4e-3, 0.09));
    inside.outside = Section::Outside::closed;
    const double middle = 0.5 * (whole.begin + whole.end);
    inside.begin = std::max(whole.begin, middle - 0.5 * tube.wood_thickness);
    inside.end = std::min(whole.end, middle + 0.5 * tube.wood_thickness);
    add_around(bare, inside);
  }

  /// The middle stretch with what is left of the tube before and behind it.
  void add_around(const Section& bare, const Section& inside) {
    if (inside.begin > bare.begin) {
      Section before = bare;
      before.end = inside.begin;
      sections_.push_back(std::move(before));
    }
    sections_.push_back(inside);
    if (inside.end < bare.end) {
      Section behind = bare;
      behind.begin = inside.end;
      sections_.push_back(std::move(behind));
    }
  }

  const Scenario& scenario_;
  double radius_;
  std::vector<Section> sections_;
};

}  // namespace

double covering_radius(const scenario::Wire& wire) {
  double radius = 0.5 * wire.diameter;
  for (const auto& layer : wire.layers) {
    radius += layer.thickness;
  }
  return radius;
}

std::vector<Section> sections_of(const scenario::Scenario& scenario) {
  return Builder(scenario).build();
}

}  // namespace ampstair::grid
