// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <string>
#include <variant>

#include "sheet_rig.hpp"

using namespace rig;

namespace {

Sheet good(std::string_view text) {
  ProblemList problems;
  Sheet sheet = read_sheet(text, problems);
  for (const auto& problem : problems.sorted()) {
    FAIL(describe(problem));
  }
  return sheet;
}

}  // namespace

TEST_CASE("values keep their text, place and origin") {
  const Sheet sheet = good("layers:\n  - {material: rubber, thickness: 3/64 in}\n");
  REQUIRE(sheet.layers.size() == 1);
  const Layer& layer = sheet.layers[0];
  CHECK(layer.thickness.best == Approx(0.0254 * 3 / 64));
  CHECK(layer.thickness.text == "3/64 in");
  CHECK(layer.thickness.place == Place{"s.yaml", 2, 35});
  CHECK(layer.thickness.given());
  CHECK(layer.emissivity.best == Approx(0.9));
  CHECK(layer.emissivity.origin == Origin::by_default);
  CHECK(layer.emissivity.from == "dull surface");
  CHECK(layer.material.text.value == "rubber");
  CHECK_FALSE(layer.material.mapping.has_value());
  CHECK_FALSE(sheet.members.present());
}

TEST_CASE("a number may be a band with a source") {
  const Sheet sheet = good(
      "layers:\n"
      "  - material: rubber\n"
      "    thickness: {best: 1.2 mm, low: 0.95 mm, high: 1.35 mm, from: loupe, shape: uniform}\n");
  const Number& thickness = sheet.layers.at(0).thickness;
  CHECK(*thickness.low == Approx(0.00095));
  CHECK(*thickness.high == Approx(0.00135));
  CHECK(thickness.from == "loupe");
  CHECK(thickness.uniform);
  CHECK(thickness.band_place == Place{"s.yaml", 3, 36});
}

TEST_CASE("a table is a number or points against temperature") {
  const Sheet sheet = good(
      "layers:\n"
      "  - thickness: 1 mm\n"
      "    material:\n"
      "      conductivity: [{at: 20 degC, value: 0.15 W/m/K}, {at: 100 degC, value: {best: 0.2 "
      "W/m/K, from: guess}}]\n"
      "  - {thickness: 1 mm, material: {conductivity: 0.16 W/m/K}}\n");
  const Table& points = sheet.layers.at(0).material.mapping->conductivity;
  REQUIRE(points.points.size() == 2);
  CHECK(points.points[1].temperature == Approx(373.15));
  CHECK(points.points[1].value.best == Approx(0.2));
  CHECK(points.points[1].value.from == "guess");
  const Table& constant = sheet.layers.at(1).material.mapping->conductivity;
  REQUIRE(constant.points.size() == 1);
  CHECK(constant.points[0].value.best == Approx(0.16));
}

TEST_CASE("points of a table must rise") {
  CHECK(codes("layers:\n"
              "  - thickness: 1 mm\n"
              "    material:\n"
              "      conductivity:\n"
              "        - {at: 100 degC, value: 0.15 W/m/K}\n"
              "        - {at: 20 degC, value: 0.2 W/m/K}\n") == Told{"6:11 E133"});
  CHECK(codes("layers: [{thickness: 1 mm, material: {conductivity: []}}]\n") == Told{"1:53 E126"});
  CHECK(codes("layers: [{thickness: 1 mm, material: {conductivity: [{at: 1 K}]}}]\n") ==
        Told{"1:54 E122"});
}

TEST_CASE("alternatives are told apart by their word") {
  const Sheet sheet = good(
      "run:\n"
      "  - {piece: open, name: south leg, length: 1.10 m}\n"
      "  - {piece: tube, length: 0.12 m, bore: 9.5 mm, fit: tight, glazed: true}\n");
  REQUIRE(sheet.run.size() == 2);
  const auto& open = std::get<Open>(sheet.run[0]);
  CHECK(open.name.value == "south leg");
  CHECK(open.place == Place{"s.yaml", 2, 5});
  CHECK(open.word.value == "open");
  CHECK(open.word.place == Place{"s.yaml", 2, 13});
  const auto& tube = std::get<Tube>(sheet.run[1]);
  CHECK(tube.fit.value == "tight");
  CHECK(tube.glazed);
}

TEST_CASE("an unknown or missing word of an alternative is told") {
  CHECK(faults("run: [{piece: tubee, length: 1 m}]\n") ==
        Told{"1:15 E123 there is no piece 'tubee'. | did you mean tube? It can be one of open or "
             "tube"});
  CHECK(faults("run: [{length: 1 m}]\n") ==
        Told{"1:7 E122 'piece' is missing: what kind of piece this is. | add  piece: one of open "
             "or tube"});
  CHECK(codes("run: [open]\n") == Told{"1:7 E124"});
  CHECK(codes("run: {piece: open}\n") == Told{"1:6 E124"});
}

TEST_CASE("required keys, words and truths are told") {
  CHECK(faults("run: [{piece: open, name: leg}]\n") ==
        Told{"1:7 E122 'length' of piece 'leg' is missing: along the wire. | add  length: 1.10 m"});
  CHECK(faults("run: [{piece: tube, length: 1 m, bore: 9 mm, fit: lose}]\n") ==
        Told{"1:51 E123 'fit' cannot be 'lose'. | did you mean loose? It can be one of tight or "
             "loose"});
  CHECK(faults("run: [{piece: tube, length: 1 m, bore: 9 mm, glazed: yes}]\n") ==
        Told{"1:54 E123 'glazed' cannot be 'yes'. | write one of true or false"});
  CHECK(codes("around: {air: }\n") == Told{"1:15 E125"});
  CHECK(codes("around: 5\n") == Told{"1:9 E124"});
  CHECK(codes("- a\n- b\n") == Told{"1:1 E124"});
  CHECK(codes("title: {a: b}\n") == Told{"1:8 E124"});
  CHECK(codes("instruments: {camera: {aim: S1}}\n") == Told{"1:29 E124"});
  CHECK(codes("members: 1.5\n") == Told{"1:10 E115"});
  CHECK(codes("members: 0\n") == Told{"1:10 E130"});
}

TEST_CASE("bounds are told with their edge") {
  CHECK(faults("run: [{piece: open, name: leg, length: -1.10 m}]\n") ==
        Told{"1:40 E130 length -1.10 m of piece 'leg' is outside 0.00 m (itself excluded) to "
             "1000.00 m. | did you mean 1.10 m?"});
  CHECK(faults("staircase: [{hold: 14 A, for: 0 min}]\n") ==
        Told{"1:31 E130 for 0 min must be greater than 0 s. | write a value that is greater than 0 "
             "s"});
}

TEST_CASE("texts stay texts") {
  const Sheet sheet =
      good("title: 2026\ngauge: 1_000\ninstruments: {camera: {aim: [S1, true, 12]}}\n");
  CHECK(sheet.title.value == "2026");
  CHECK(sheet.gauge.value == "1_000");
  REQUIRE(sheet.instruments->camera->aim.size() == 3);
  CHECK(sheet.instruments->camera->aim[1].value == "true");
}

TEST_CASE("a change is read over a piece") {
  const Sheet sheet = good(
      "run:\n"
      "  - {piece: tube, name: T1, length: 0.12 m, bore: 9.5 mm, around: {air: 11 degC}}\n"
      "arrangements:\n"
      "  - {name: other, change: [{piece: T1, bore: 12 mm, around: {speed: 1 m/s}}]}\n");
  auto piece = sheet.run.at(0);
  ProblemList problems;
  const Change change{"arrangements[1].change[1]", "piece", "T1", {"piece"}};
  read_over(sheet.arrangements.at(0).change.at(0), pieces(), piece, problems, change);
  CHECK(problems.empty());
  const auto& tube = std::get<Tube>(piece);
  CHECK(tube.bore.best == Approx(0.012));
  CHECK(tube.length.best == Approx(0.12));
  CHECK(tube.fit.value == "loose");
  CHECK(tube.name.value == "T1");
  CHECK(tube.around->air.best == Approx(284.15));
  CHECK(tube.around->speed.best == Approx(1.0));
}

TEST_CASE("faults of a change name the piece") {
  const Sheet sheet = good(
      "run: [{piece: open, name: K, length: 1 m}]\n"
      "arrangements: [{name: a, change: [{piece: K, lenght: 1 m, length: 2, around: {speed: "
      "0 m/s}}]}]\n");
  auto piece = sheet.run.at(0);
  ProblemList problems;
  read_over(sheet.arrangements.at(0).change.at(0), pieces(), piece, problems,
            {"arrangements[1].change[1]", "piece", "K", {"piece"}});
  const auto told = problems.sorted();
  REQUIRE(told.size() == 3);
  CHECK(told[0].what == "unknown key 'lenght' in piece 'K'.");
  CHECK(told[1].what == "'length' of piece 'K' has no unit (read 2).");
  // surroundings that are new must be complete
  CHECK(told[2].what == "'air' is missing: of the air.");
}
