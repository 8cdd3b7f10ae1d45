// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <map>
#include <string>

#include "sheet/entries.hpp"
#include "sheet_rig.hpp"

using namespace rig;
using ampstair::sheet::SheetEntry;

namespace {

std::map<std::string, SheetEntry> entries(std::string_view text) {
  ProblemList problems;
  const Sheet sheet = read_sheet(text, problems);
  REQUIRE(problems.empty());
  std::map<std::string, SheetEntry> by_path;
  for (const auto& entry : ampstair::sheet::entries_of(sheet_keys(), sheet)) {
    CAPTURE(entry.path);
    CHECK(by_path.emplace(entry.path, entry).second);  // no path twice
  }
  return by_path;
}

}  // namespace

TEST_CASE("every value of a sheet has its own path, items of a list by their names") {
  const auto all = entries(
      "layers:\n"
      "  - {material: rubber, thickness: {best: 3/64 in, low: 0.95 mm, high: 1.35 mm, from: "
      "loupe}}\n"
      "  - {material: {conductivity: [{at: 20 degC, value: 0.15 W/m/K}, {at: 90 degC, value: 0.2 "
      "W/m/K}]}, thickness: 1 mm}\n"
      "run: [{piece: open, name: south leg, length: 1.10 m}, {piece: tube, length: 9 m, bore: 9 "
      "mm}]\n"
      "instruments: {camera: {aim: [south leg, T1]}}\n"
      "arrangements: [{name: a, change: [{piece: south leg, around: {air: 12 degC}}]}]\n");
  const auto& thickness = all.at("layers/1/thickness");
  CHECK(thickness.text == "3/64 in (0.95 mm to 1.35 mm)");
  CHECK(*thickness.value == Approx(0.0254 * 3.0 / 64.0).epsilon(1e-14));
  CHECK(*thickness.low == Approx(0.95e-3));
  CHECK(thickness.unit == "m");
  CHECK(thickness.source == "loupe");
  CHECK(all.at("layers/1/material").text == "rubber");
  CHECK_FALSE(all.at("layers/1/material").value);
  CHECK(*all.at("layers/2/material/conductivity/at 293.15 K").value == Approx(0.15));
  CHECK(all.at("run/south leg/piece").text == "open");
  CHECK(all.at("run/south leg/length").text == "1.10 m");
  CHECK(all.at("run/2/piece").text == "tube");
  CHECK(all.at("run/2/fit").by_default);
  CHECK(all.at("run/2/fit").source == "usual");
  CHECK(all.at("instruments/camera/aim").text == "south leg, T1");
  CHECK(all.at("arrangements/a/change/1/around/air").text == "12 degC");
}

TEST_CASE("items of one name are told apart") {
  const auto all =
      entries("arrangements: [{name: a, change: [{x: 1}]}, {name: a, change: [{x: 2}]}]\n");
  CHECK(all.at("arrangements/a/change/1/x").text == "1");
  CHECK(all.at("arrangements/a (2)/change/1/x").text == "2");
}
