// SPDX-License-Identifier: MIT
#include "report/section.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace ampstair::post::report {

namespace {

using checks::Histories;
using nlohmann::json;

constexpr std::size_t most_windows = 4;
constexpr std::size_t most_moments = 60;
constexpr double half_window = 0.06;  // m

struct Window {
  std::string name;
  double middle = 0.0;  // m
};

std::vector<Window> windows(const Histories& histories, const checks::Findings& findings) {
  std::vector<Window> found;
  if (const auto& hottest = findings.hottest_conductor) {
    found.push_back({"the hottest place, " + hottest->spot.name, hottest->spot.position});
  }
  const auto kind = histories.texts("pieces", "kind");
  const auto name = histories.texts("pieces", "name");
  const auto begin = histories.numbers("pieces", "begin");
  const auto end = histories.numbers("pieces", "end");
  for (std::size_t i = 0; i < kind.size(); ++i) {
    if ((kind[i] == "tube" || kind[i] == "knob") && found.size() < most_windows) {
      found.push_back({kind[i] + " " + name[i], 0.5 * (begin[i] + end[i])});
    }
  }
  return found;
}

/// The table of cells.
struct Cells {
  std::vector<double> inner, outer, begin, end;
  std::vector<std::string> material;

  explicit Cells(const Histories& histories)
      : inner(histories.numbers("grid", "inner_radius")),
        outer(histories.numbers("grid", "outer_radius")),
        begin(histories.numbers("grid", "begin")),
        end(histories.numbers("grid", "end")),
        material(histories.texts("grid", "part")) {}

  /// Cells of the run (side bodies have no radius) that reach into a stretch of it.
  [[nodiscard]] std::vector<std::size_t> between(double from, double to) const {
    std::vector<std::size_t> inside;
    for (std::size_t c = 0; c < begin.size(); ++c) {
      if (std::isfinite(outer[c]) && outer[c] > inner[c] && end[c] > from && begin[c] < to) {
        inside.push_back(c);
      }
    }
    return inside;
  }
};

double thousandths(double value) {
  return std::round(value * 1e3) / 1e3;
}

json outline(const Cells& cells, const std::vector<std::size_t>& inside, const Window& window) {
  const double from = window.middle - half_window;
  json out;
  out["name"] = window.name;
  out["from_m"] = from;
  out["to_m"] = window.middle + half_window;
  json materials = json::array();
  for (const char* key : {"begin_mm", "end_mm", "inner_mm", "outer_mm", "material"}) {
    out[key] = json::array();
  }
  for (const std::size_t c : inside) {
    out["begin_mm"].push_back(thousandths(1e3 * (std::max(cells.begin[c], from) - from)));
    out["end_mm"].push_back(
        thousandths(1e3 * (std::min(cells.end[c], window.middle + half_window) - from)));
    out["inner_mm"].push_back(thousandths(1e3 * cells.inner[c]));
    out["outer_mm"].push_back(thousandths(1e3 * cells.outer[c]));
    auto known = std::find(materials.begin(), materials.end(), cells.material[c]);
    out["material"].push_back(known - materials.begin());
    if (known == materials.end()) {
      materials.push_back(cells.material[c]);
    }
  }
  out["materials"] = std::move(materials);
  out["minute"] = json::array();
  out["degC"] = json::array();
  return out;
}

}  // namespace

json sections(const Histories& histories, const checks::Findings& findings) {
  json all = json::array();
  if (!histories.has("fields") || !histories.has("grid") || !histories.has("pieces")) {
    return all;
  }
  const Cells cells(histories);
  std::vector<std::vector<std::size_t>> inside;
  for (const Window& window : windows(histories, findings)) {
    inside.push_back(cells.between(window.middle - half_window, window.middle + half_window));
    all.push_back(outline(cells, inside.back(), window));
  }
  const auto moments = histories.axis("fields/field_time");
  const std::size_t stride =
      std::max<std::size_t>(1, (moments.size() + most_moments - 1) / most_moments);
  for (std::size_t k = 0; k < moments.size(); ++k) {
    if (k % stride != 0 && k + 1 != moments.size()) {
      continue;
    }
    const auto field = histories.rows("fields/field_temperature", k, 1);
    for (std::size_t w = 0; w < inside.size(); ++w) {
      json temperatures = json::array();
      for (const std::size_t c : inside[w]) {
        temperatures.push_back(std::round(field[c] * 10.0) / 10.0);
      }
      all[w]["minute"].push_back(std::round(moments[k] / 0.6) / 100.0);
      all[w]["degC"].push_back(std::move(temperatures));
    }
  }
  return all;
}

}  // namespace ampstair::post::report
