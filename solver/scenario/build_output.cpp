// SPDX-License-Identifier: MIT
#include <cmath>

#include "scenario/building.hpp"

namespace ampstair::scenario {

namespace {

using quantities::Dimension;

Probe build_probe(const ProbeSheet& sheet, const std::vector<Extent>& run,
                  const Building& building) {
  const std::string path = "probes/" + sheet.name.value;
  Probe probe;
  probe.name = sheet.name.value;
  if (sheet.at.present()) {
    probe.position = building.values.use(
        path + "/at", locate(sheet.at, "probe", run, building.problems).value_or(0.0),
        Dimension::length, "'" + sheet.at.value + "'", false);
  }
  if (sheet.radius.present()) {
    probe.of = Probe::Of::radius;
    probe.radius = building.values.use(path + "/radius", sheet.radius, Dimension::length);
    if (sheet.part.present()) {
      building.problems.error("E166", sheet.part.place, "a probe has a part or a radius, not both.",
                              "leave one of them out");
    }
  } else if (sheet.part.value == "surface") {
    probe.of = Probe::Of::surface;
  } else if (sheet.part.present() && sheet.part.value != "conductor") {
    probe.of = Probe::Of::part;
    probe.part = sheet.part.value;
  }
  return probe;
}

}  // namespace

Output build_output(const OutputSheet& sheet, const Building& building) {
  auto& values = building.values;
  Output output;
  output.history = sheet.history.value;
  output.every = values.use("output/every", sheet.every, Dimension::duration);
  output.field_every = values.use("output/field_every", sheet.field_every, Dimension::duration);
  output.grid = values.use("output/grid", sheet.grid, Dimension::length);
  output.radial_cells = static_cast<int>(
      std::lround(values.use("output/radial_cells", sheet.radial_cells, Dimension::count)));
  output.accuracy =
      values.use("output/accuracy", sheet.accuracy, Dimension::temperature_difference);
  return output;
}

std::vector<Probe> build_probes(const RunSheet& sheet, const std::vector<Extent>& run,
                                const Building& building) {
  std::vector<Probe> probes;
  for (const auto& probe : sheet.probes) {
    probes.push_back(build_probe(probe, run, building));
  }
  return probes;
}

}  // namespace ampstair::scenario
