// SPDX-License-Identifier: MIT
#include "scenario/scenario.hpp"

#include <algorithm>
#include <numeric>

#include "scenario/parts.hpp"

namespace ampstair::scenario {

namespace {

class PartList {
 public:
  void add(const std::string& part) {
    if (std::find(parts_.begin(), parts_.end(), part) == parts_.end()) {
      parts_.push_back(part);
    }
  }
  void add(const MaterialPtr& material) {
    if (material) {
      add(material->part);
    }
  }
  void of_kind(const Knob& knob) {
    add(knob.body);
    add(knob.wood);
  }
  void of_kind(const Tube& tube) {
    add(tube.body);
    add(tube.wood);
  }
  void of_kind(const Sleeve& sleeve) { add(sleeve.material); }
  void of_kind(const Splice& splice) {
    for (const auto& layer : splice.wrapping) {
      add(layer.part);
    }
  }
  void of_kind(const Filled& filled) { add(filled.fill); }
  void of_kind(const Lug&) {}
  void of_kind(const CutEnd&) {}
  void of_kind(const Open&) {}

  [[nodiscard]] std::vector<std::string> taken() const { return parts_; }

 private:
  std::vector<std::string> parts_;
};

}  // namespace

double Scenario::duration() const {
  return std::accumulate(staircase.begin(), staircase.end(), 0.0,
                         [](double sum, const Step& step) { return sum + step.duration; });
}

std::vector<std::string> parts_of(const Scenario& scenario) {
  PartList parts;
  parts.add("conductor");
  parts.add("surface");
  if (!scenario.wire.layers.empty()) {
    parts.add("covering");
  }
  for (const auto& layer : scenario.wire.layers) {
    parts.add(layer.part);
  }
  for (const auto& piece : scenario.run) {
    std::visit([&](const auto& kind) { parts.of_kind(kind); }, piece.kind);
    if (piece.facing) {
      parts.add(piece.facing->wood);
    }
  }
  if (!scenario.bays.empty()) {
    parts.add("bay-air");
    parts.add("bay-walls");
  }
  return parts.taken();
}

double outer_radius(const Wire& wire) {
  return std::accumulate(wire.layers.begin(), wire.layers.end(), 0.5 * wire.diameter,
                         [](double sum, const Layer& layer) { return sum + layer.thickness; });
}

}  // namespace ampstair::scenario
