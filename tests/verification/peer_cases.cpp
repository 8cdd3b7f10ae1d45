// SPDX-License-Identifier: MIT
#include "peer_cases.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "scenario/arrangement.hpp"
#include "scenario/load.hpp"

namespace ampstair::tests {

namespace {

constexpr double conductor_diameter = 1.6276e-3;  // m

scenario::Wire covered() {
  return {copper(),
          conductor_diameter,
          {{"rubber", solid("rubber", 0.16, 1200, 1700), 1.1862e-3},
           {"braid", solid("braid", 0.07, 600, 1340), 0.6e-3}}};
}

}  // namespace

Rig covered_wire_alone() {
  auto rig = long_wire(covered(), film(8.0, 0.9, 20.0));
  rig.hold(40, 1800).rest(1800);
  return rig;
}

Rig wire_through_stud() {
  scenario::Tube tube;
  tube.body = solid("porcelain", 1.7, 2400, 900);
  tube.bore = 8e-3;
  tube.outer = 16e-3;
  tube.gap = solid("gap", 0.05, 1.0, 1005);
  tube.wood = solid("wood", 0.13, 500, 1700);
  tube.wood_thickness = 0.038;
  tube.wood_radius = 0.045;
  Rig rig(covered(), film(8.0, 0.9, 20.0));
  rig.insulated_end().piece("a", 0.55).piece("T1", 0.1, tube).piece("b", 0.55).insulated_end();
  for (const double from_middle : {0.0, 0.05, 0.1, 0.3, 0.6}) {
    rig.conductor_probe(0.6 + from_middle);
  }
  for (const double from_middle : {0.06, 0.3, 0.6}) {
    rig.surface_probe(0.6 + from_middle);
  }
  rig.radius_probe(0.6, 8e-3).radius_probe(0.6, 20e-3).radius_probe(0.645, 8e-3);
  rig.hold(50, 900).hold(70, 900);
  return rig;
}

Rig wire_along_a_joist() {
  const auto joist = [](double distance) {
    return scenario::Facing{solid("wood", 0.13, 500, 1700), distance, 0.03, 0.05, 4e-3};
  };
  Rig rig(covered(), still_air(20));
  rig.insulated_end()
      .piece("a", 0.2)
      .piece("b", 0.2)
      .faces(joist(2e-3))
      .piece("s", 0.1, scenario::Sleeve{solid("sleeving", 0.1, 900, 1400), 1e-3, 0.0})
      .faces(joist(6e-3))
      .insulated_end();
  for (const double at : {0.1, 0.3, 0.45}) {
    rig.conductor_probe(at);
  }
  rig.part_probe(0.3, "wood");
  rig.hold(40, 1800).hold(50, 1800).rest(900);
  return rig;
}

Rig bare_wire_between_held_ends() {
  Rig rig({copper(), conductor_diameter, {}}, film(10.0, 0.3, 20.0));
  rig.held_end(20).piece("wire", 0.5).held_end(20).hold(40, 1800);
  rig.conductor_probe(0.25).conductor_probe(0.1);
  return rig;
}

scenario::Scenario barn() {
  return scenario::load(AMPSTAIR_SOURCE_FOLDER "/scenarios/cider-barn.yaml", scenario::as_built)
      .scenario;
}

HistoryKeeper::HistoryKeeper(const marching::HeatNetwork& network,
                             const scenario::Scenario& scenario)
    : view_(network, scenario) {
  history.stations = network.grid().stations();
  history.probes = scenario.probes.size();
}

void HistoryKeeper::moment(const marching::Moment& moment) {
  if (!moment.regular) {
    return;  // an integrator of another kind has no row there
  }
  std::size_t size = 2 * history.stations + history.probes;
  for (const auto& part : view_.parts()) {
    size += part.position.size();
  }
  std::vector<double> row(size);
  std::span<double> rest(row);
  const auto next = [&](std::size_t count) {
    const auto taken = rest.first(count);
    rest = rest.subspan(count);
    return taken;
  };
  std::ranges::copy(moment.temperature.first(history.stations), next(history.stations).begin());
  view_.surfaces(moment, next(history.stations));
  for (std::size_t p = 0; p < view_.parts().size(); ++p) {
    view_.part(p, moment.temperature, next(view_.parts()[p].position.size()));
  }
  view_.probes(moment, next(history.probes));
  history.time.push_back(moment.time);
  history.value.push_back(std::move(row));
}

Difference largest_difference(const History& a, const History& b) {
  if (a.time.size() != b.time.size()) {
    throw std::logic_error("histories of different outputs");
  }
  Difference largest;
  for (std::size_t i = 0; i < a.time.size(); ++i) {
    if (std::abs(a.time[i] - b.time[i]) > 1e-9 * (1.0 + a.time[i])) {
      throw std::logic_error("outputs at different times");
    }
    const std::size_t size = a.value[i].size();
    for (std::size_t k = 0; k < size; ++k) {
      double difference = std::abs(a.value[i][k] - b.value[i].at(k));
      difference = std::isfinite(difference) ? difference : 1e30;
      const auto take = [&](double& so_far) { so_far = std::max(so_far, difference); };
      take(largest.anywhere);
      if (k < a.stations) {
        take(largest.conductor);
      }
      if (k + a.probes >= size) {
        take(largest.probes);
      }
    }
  }
  return largest;
}

}  // namespace ampstair::tests
