// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <set>

#include "grid/grid.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;
using grid::Grid;

constexpr double pi = std::numbers::pi;

scenario::Wire covered() {
  return {copper(),
          2.0525e-3,
          {{"rubber", solid("rubber", 0.15, 1150, 1700), 1.19e-3},
           {"braid", solid("braid", 0.07, 600, 1350), 0.5e-3}}};
}
constexpr double covering = 2.71625e-3;  // m, outer radius

scenario::Tube tube() {
  scenario::Tube tube;
  tube.body = solid("porcelain", 1.5, 2400, 1050);
  tube.bore = 9.5e-3;
  tube.outer = 16e-3;
  tube.wood = solid("wood", 0.12, 480, 1600);
  tube.wood_thickness = 0.05;
  tube.wood_radius = 0.045;
  return tube;
}

scenario::Sleeve sleeve(double gap) {
  return {solid("sleeving", 0.08, 700, 1400), 1.2e-3, gap};
}
scenario::Filled filled() {
  return {solid("cellulose", 0.042, 50, 1600), 0.15};
}
scenario::Splice splice() {
  return {1.6e-3, {{"tape", solid("tape", 0.15, 1100, 1500), 0.8e-3}}};
}

double sum(const std::vector<double>& values) {
  double total = 0.0;
  for (const double v : values) {
    total += v;
  }
  return total;
}

/// Volume of all cells of one part.
double volume_of(const Grid& g, const std::string& part) {
  double total = 0.0;
  for (std::size_t c = 0; c < g.cells; ++c) {
    total += g.media[g.medium[c]].part == part ? g.volume[c] : 0.0;
  }
  return total;
}

double ring(double outer, double inner, double length) {
  return pi * (outer * outer - inner * inner) * length;
}

/// Area of exposed faces with a direction and shape.
double area_of(const Grid& g, bool axial, const std::string& part) {
  double total = 0.0;
  for (const auto& face : g.faces) {
    total += face.axial == axial && g.media[g.medium[face.cell]].part == part ? face.area : 0.0;
  }
  return total;
}

/// Every kind of piece with a length but the knob, neighbours touching, no two alike.
Rig mixed_run() {
  Rig rig(covered(), still_air(11));
  rig.insulated_end()
      .piece("a", 0.31)
      .piece("t", 0.12, tube())
      .piece("s", 0.2, sleeve(0.5e-3))
      .piece("f", 0.4, filled())
      .piece("b", 0.17)
      .piece("j", 0.06, splice())
      .piece("tight", 0.1, sleeve(0.0))
      .piece("c", 0.3)
      .insulated_end();
  return rig;
}

}  // namespace

TEST_CASE("a face of the stations lies at every end of a piece") {
  const Rig rig = mixed_run();
  const Grid g = grid::build(rig.sheet);
  for (const auto& piece : rig.sheet.run) {
    const auto near = std::min_element(
        g.station_face.begin(), g.station_face.end(),
        [&](double a, double b) { return std::abs(a - piece.begin) < std::abs(b - piece.begin); });
    CHECK(std::abs(*near - piece.begin) < 1e-12);
  }
  CHECK(g.station_face.back() == Approx(rig.sheet.length()).epsilon(1e-14));
  for (std::size_t j = 0; j < g.stations(); ++j) {
    const auto& piece = rig.sheet.run[g.station_piece[j]];
    CHECK((piece.begin < g.station_centre[j] && g.station_centre[j] < piece.end()));
  }
}

TEST_CASE("volumes are those of the cylinders") {
  const Rig rig = mixed_run();
  const Grid g = grid::build(rig.sheet);
  const double length = rig.sheet.length();
  CHECK(volume_of(g, "conductor") == Approx(ring(1.02625e-3, 0, length)).epsilon(1e-12));
  CHECK(volume_of(g, "rubber") == Approx(ring(2.21625e-3, 1.02625e-3, length)).epsilon(1e-12));
  CHECK(volume_of(g, "braid") == Approx(ring(covering, 2.21625e-3, length)).epsilon(1e-12));
  CHECK(volume_of(g, "ceramic") == Approx(ring(8e-3, 4.75e-3, 0.12)).epsilon(1e-12));
  CHECK(volume_of(g, "wood") == Approx(ring(0.045, 8e-3, 0.05)).epsilon(1e-12));
  CHECK(volume_of(g, "fill") == Approx(ring(0.15, covering, 0.4)).epsilon(1e-12));
  CHECK(volume_of(g, "tape") == Approx(ring(covering + 0.8e-3, covering, 0.06)).epsilon(1e-12));
  CHECK(volume_of(g, "sleeve") == Approx(ring(covering + 1.7e-3, covering + 0.5e-3, 0.2) +
                                         ring(covering + 1.2e-3, covering, 0.1))
                                      .epsilon(1e-12));
  CHECK(volume_of(g, "gap") ==
        Approx(ring(4.75e-3, covering, 0.12) + ring(covering + 0.5e-3, covering, 0.2))
            .epsilon(1e-12));
}

TEST_CASE("exposed areas are those of the outline") {
  const Rig rig = mixed_run();
  const Grid g = grid::build(rig.sheet);
  const auto side = [](double radius, double length) { return 2.0 * pi * radius * length; };
  CHECK(area_of(g, false, "braid") == Approx(side(covering, 0.31 + 0.17 + 0.3)).epsilon(1e-12));
  CHECK(area_of(g, false, "ceramic") == Approx(side(8e-3, 0.07)).epsilon(1e-12));
  CHECK(area_of(g, false, "fill") == Approx(side(0.15, 0.4)).epsilon(1e-12));
  CHECK(area_of(g, false, "wood") == 0.0);  // its rim is closed
  CHECK(area_of(g, true, "wood") == Approx(2.0 * ring(0.045, 8e-3, 1.0)).epsilon(1e-12));
  // One end of the tube is free; the other stands against the sleeve up to the sleeve's outside.
  const double sleeve_outside = covering + 1.7e-3;
  CHECK(area_of(g, true, "ceramic") ==
        Approx(ring(8e-3, 4.75e-3, 1.0) + ring(8e-3, std::max(4.75e-3, sleeve_outside), 1.0))
            .epsilon(1e-12));
  CHECK(area_of(g, true, "gap") == 0.0);
  CHECK(area_of(g, true, "braid") == 0.0);
}

TEST_CASE("neighbouring cells grow smoothly along the run") {
  const Grid g = grid::build(mixed_run().sheet);
  for (std::size_t j = 1; j < g.stations(); ++j) {
    const double a = g.station_face[j] - g.station_face[j - 1];
    const double b = g.station_face[j + 1] - g.station_face[j];
    INFO("at " << g.station_face[j] << " m: " << a << " and " << b);
    CHECK(std::max(a / b, b / a) < 1.6);
  }
}

TEST_CASE("no cell is longer than asked for") {
  Rig rig = mixed_run();
  rig.sheet.output.grid = 8e-3;
  for (const double scale : {1.0, 2.0}) {
    const Grid g = grid::build(rig.sheet, scale);
    for (std::size_t j = 0; j < g.stations(); ++j) {
      CHECK(g.station_face[j + 1] - g.station_face[j] < 8e-3 / scale * 1.001);
    }
  }
}

TEST_CASE("halving the grid about doubles rows and stations") {
  const Grid coarse = grid::build(mixed_run().sheet);
  const Grid fine = grid::build(mixed_run().sheet, 2.0);
  CHECK(static_cast<double>(fine.stations()) / static_cast<double>(coarse.stations()) ==
        Approx(2.0).epsilon(0.1));
  CHECK(fine.real_cells > 3 * coarse.real_cells);
}

TEST_CASE("adjacent pieces with something round the wire share their radial faces") {
  const Grid g = grid::build(mixed_run().sheet);
  // Every patch's first face is the outermost of its parent, and its stations lie over it.
  for (std::size_t p = 1; p < g.patches.size(); ++p) {
    const auto& patch = g.patches[p];
    const auto& parent = g.patches[patch.parent];
    CHECK(patch.parent < p);
    CHECK(patch.radius.front() == parent.radius.back());
    CHECK(patch.first_station >= parent.first_station);
    CHECK(patch.first_station + patch.stations <= parent.first_station + parent.stations);
  }
  // Sleeve and fill touch: at least one patch over the covering spans the border between them.
  const double border = 0.31 + 0.12 + 0.2;
  bool spans = false;
  for (std::size_t p = 2; p < g.patches.size(); ++p) {
    const auto& patch = g.patches[p];
    spans = spans || (g.station_face[patch.first_station] < border - 1e-6 &&
                      g.station_face[patch.first_station + patch.stations] > border + 1e-6);
  }
  CHECK(spans);
}

TEST_CASE("cells of all patches are distinct and as many as told") {
  const Grid g = grid::build(mixed_run().sheet);
  std::set<std::size_t> cells;
  std::size_t count = 0;
  for (const auto& patch : g.patches) {
    for (std::size_t i = 0; i < patch.rows; ++i) {
      for (std::size_t j = 0; j < patch.stations; ++j) {
        cells.insert(patch.row(i) + j);
        ++count;
      }
    }
  }
  CHECK(cells.size() == count);
  CHECK(g.real_cells == count);
  CHECK(*cells.rbegin() < g.cells);
  for (const std::size_t c : cells) {
    CHECK(g.volume[c] > 0.0);
  }
}

TEST_CASE("a splice's resistance is all there whatever the grid") {
  for (const double spacing : {2e-3, 5e-3, 10e-3, 60e-3}) {
    Rig rig = mixed_run();
    rig.sheet.output.grid = spacing;
    CHECK(sum(grid::build(rig.sheet).joint_resistance) == Approx(1.6e-3).epsilon(1e-13));
  }
}

TEST_CASE("a run laid from the other end is the mirrored grid") {
  Rig rig = mixed_run();
  Rig back(covered(), still_air(11));
  for (auto piece = rig.sheet.run.rbegin(); piece != rig.sheet.run.rend(); ++piece) {
    back.piece(piece->name, piece->length, piece->kind);
  }
  const Grid g = grid::build(rig.sheet);
  const Grid m = grid::build(back.sheet);
  REQUIRE(g.stations() == m.stations());
  const double length = rig.sheet.length();
  for (std::size_t j = 0; j <= g.stations(); ++j) {
    CHECK(g.station_face[j] == Approx(length - m.station_face[g.stations() - j]).margin(1e-6));
  }
}

TEST_CASE("a wire of one millimetre and one of a hundred metres have grids") {
  for (const double length : {1e-3, 100.0}) {
    Rig rig(covered(), still_air(11));
    rig.insulated_end().piece("wire", length).insulated_end();
    const Grid g = grid::build(rig.sheet);
    CHECK(g.stations() >= 2);
    CHECK(sum(g.volume) == Approx(ring(covering, 0, length)).epsilon(1e-9));
  }
}

TEST_CASE("a held end is the conductor's alone, an open cut end exposes the whole section") {
  Rig held(covered(), still_air(20));
  held.held_end(20).piece("wire", 0.5).held_end(30);
  const Grid g = grid::build(held.sheet);
  int ends = 0;
  for (const auto& face : g.faces) {
    const auto& exposure = g.exposures[face.exposure];
    if (exposure.to == grid::Exposure::To::held) {
      ++ends;
      CHECK(face.area == Approx(ring(1.02625e-3, 0, 1.0)));
    }
  }
  CHECK(ends == 2);

  Rig cut(covered(), still_air(20));
  cut.piece("cut", 0.0, scenario::CutEnd{}).piece("wire", 0.5).insulated_end();
  const Grid c = grid::build(cut.sheet);
  double plates = 0.0;
  for (const auto& face : c.faces) {
    plates += c.exposures[face.exposure].shape == grid::Exposure::Shape::plate ? face.area : 0.0;
  }
  CHECK(plates == Approx(ring(covering, 0, 1.0)).epsilon(1e-12));
}
