// SPDX-License-Identifier: MIT
#include "grid/bodies.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "grid/body_builder.hpp"
#include "grid/column.hpp"
#include "grid/facing.hpp"
#include "grid/spacing.hpp"

namespace ampstair::grid {

namespace {

constexpr double pi = std::numbers::pi;

/// The ceramic of a knob: a column as high as the knob with the wire through its middle.
struct Column {
  double area, radius, slice;
  std::size_t cells;
};

Column add_ceramic(const scenario::Knob& knob, std::size_t around, double scale,
                   BodyBuilder& builder) {
  Column column{};
  column.area = knob.mass / knob.body->density / knob.height;
  column.radius = std::sqrt(column.area / pi);
  // An odd number: the wire goes through the middle of a cell.
  column.cells = 2 * static_cast<std::size_t>(std::lround(4.5 * scale - 0.5)) + 1;
  column.slice = knob.height / static_cast<double>(column.cells);
  Exposure side;
  side.length = 2.0 * column.radius;
  side.emissivity = knob.body->emissivity;
  side.surroundings = around;
  const double side_area = 2.0 * pi * column.radius * column.slice;
  for (std::size_t i = 0; i < column.cells; ++i) {
    const auto cell = builder.add_cell(column.area * column.slice, knob.body, "ceramic");
    // Mean of a disc losing heat at its rim lies radius / 4 of flux-over-k below its centre line.
    builder.expose(cell, side_area, side_area / (0.25 * column.radius), side);
    if (i > 0) {
      const double half = 0.5 * column.slice / column.area;
      builder.link({half, half, 0.0});
    }
  }
  builder.expose(0, column.area, column.area / (0.5 * column.slice), side);
  builder.body().tied = column.cells / 2;
  return column;
}

/// Wood behind the base: heat spreads as from a disc on a deep body. The area at depth x is taken
/// as pi (a + 4 x / pi)^2, which has the constriction resistance 1 / (4 a k) of an isothermal disc
/// (Carslaw & Jaeger 1959, section 8.2; from memory).
void add_wood(const scenario::Knob& knob, const Column& column, std::size_t around, double scale,
              BodyBuilder& builder) {
  const double opening = 4.0 / pi;
  const double a = column.radius;
  const auto resistance = [&](double from, double to) {
    return (1.0 / (a + opening * from) - 1.0 / (a + opening * to)) / (pi * opening);
  };
  const auto volume = [&](double from, double to) {
    const auto cube = [&](double x) { return std::pow(a + opening * x, 3); };
    return pi * (cube(to) - cube(from)) / (3.0 * opening);
  };
  const auto wanted = [&](double x) { return (1e-3 + 0.15 * x) / scale; };
  const auto depth = graded(0.0, knob.wood_depth, wanted, 4);
  double before = 0.5 * column.slice / column.area;
  double contact = 1.0 / (knob.base_conductance * column.area);
  for (std::size_t i = 0; i + 1 < depth.size(); ++i) {
    const double middle = 0.5 * (depth[i] + depth[i + 1]);
    const auto cell = builder.add_cell(volume(depth[i], depth[i + 1]), knob.wood, "wood");
    builder.body().depth[cell] = middle;
    builder.link({before, resistance(depth[i], middle), contact});
    before = resistance(middle, depth[i + 1]);
    contact = 0.0;
  }
  builder.body().end_depth = knob.wood_depth;
  Exposure back;
  back.shape = Exposure::Shape::plate;
  back.length = 2.0 * (a + opening * knob.wood_depth);
  back.emissivity = knob.wood->emissivity;
  back.surroundings = around;
  const double area = pi * 0.25 * back.length * back.length;
  builder.expose(builder.body().cells - 1, area, 1.0 / before, back);
}

/// Ties every station under the grip to the knob, through half the outermost cell of the covering,
/// the contact, and the ceramic from the groove to its middle. A surface that is in part free is
/// shared: heat comes to it all round, whichever way it leaves.
void tie_grip(const scenario::Knob& knob, std::size_t piece, const Column& column, Grid& grid,
              SideBody& body) {
  for (std::size_t j = 0; j < grid.stations(); ++j) {
    if (grid.station_piece[j] != piece) {
      continue;
    }
    const Patch& patch = grid.patches[grid.top_patch[j]];
    const double inner = patch.radius[patch.rows - 1];
    const double outer = patch.radius[patch.rows];
    const double width = grid.station_face[j + 1] - grid.station_face[j];
    const double turn = 2.0 * pi * width * knob.covers;
    const double path = inner > 0.0 ? std::log(outer) - log_mean_radius(inner, outer) : 0.0;
    SideBody::Tie tie;
    tie.station = j;
    tie.cell = patch.row(patch.rows - 1) + j - patch.first_station;
    if (inner > 0.0) {  // else the conductor, which is its own surface
      tie.face = grid.outer_face[j];
    }
    tie.link.shape_a = path / (tie.face == Grid::npos ? turn : 2.0 * pi * width);
    tie.link.shape_b = std::log(std::max(column.radius, outer) / outer) / turn;
    tie.link.contact = 1.0 / (knob.grip_conductance * turn * outer);
    body.ties.push_back(tie);
  }
}

void add_knob(const scenario::Scenario& scenario, std::size_t index, double scale, Grid& grid) {
  const auto& piece = scenario.run[index];
  const auto& knob = std::get<scenario::Knob>(piece.kind);
  BodyBuilder builder(grid, piece);
  const Column column = add_ceramic(knob, piece.around, scale, builder);
  SideBody& body = builder.body();
  body.holds = body.tied;
  body.spots.push_back({"ceramic", body.tied, false});
  if (knob.wood) {
    const std::size_t first_wood = body.cells;
    add_wood(knob, column, piece.around, scale, builder);
    body.spots.push_back({"wood", first_wood, true});
  }
  tie_grip(knob, index, column, grid, body);
  builder.finish();
}

/// Half of the supply's leads as a fin behind a lug, losing heat all along.
void add_lead(const scenario::Scenario& scenario, std::size_t around, double scale,
              BodyBuilder& builder) {
  const scenario::Lead& lead = scenario.supply.lead;
  const double radius = std::sqrt(lead.area / pi);
  const auto wanted = [&](double x) { return (5e-3 + 0.12 * x) / scale; };
  const auto faces = graded(0.0, 0.5 * lead.length, wanted, 6);
  Exposure side;
  side.length = 2.0 * (radius + lead.covering);
  side.emissivity = 0.9;
  side.surroundings = around;
  double before = 0.0;
  for (std::size_t i = 0; i + 1 < faces.size(); ++i) {
    const double width = faces[i + 1] - faces[i];
    const double half = 0.5 * width / lead.area;
    const auto cell = builder.add_cell(lead.area * width, lead.metal, "lead", width / lead.area);
    builder.link({before, half, 0.0});
    const double area = pi * side.length * width;
    builder.expose(cell, area, area / (0.25 * radius), side);
    before = half;
  }
}

void add_lug(const scenario::Scenario& scenario, std::size_t index, double scale, Grid& grid) {
  const auto& piece = scenario.run[index];
  const auto& lug = std::get<scenario::Lug>(piece.kind);
  BodyBuilder builder(grid, piece);
  const auto& metal = scenario.supply.lead.metal ? scenario.supply.lead.metal : scenario.wire.metal;
  builder.add_cell(lug.mass / metal->density, metal, "lug");
  if (lug.surface > 0.0) {
    Exposure side;
    side.length = 0.01;  // m, the breadth of a lug's barrel (common practice, no source)
    side.emissivity = metal->emissivity;
    side.surroundings = piece.around;
    builder.expose(0, lug.surface, 1e3 * lug.surface, side);
  }
  if (lug.sinks_to_lead && scenario.supply.lead.metal) {
    add_lead(scenario, piece.around, scale, builder);
  }
  SideBody& body = builder.body();
  body.contact_resistance = lug.contact_resistance;
  const std::size_t j = index == 0 ? 0 : grid.stations() - 1;
  const double width = grid.station_face[j + 1] - grid.station_face[j];
  SideBody::Tie tie;
  tie.station = j;
  tie.cell = j;
  // A lug sits on the end of the wire: the tie leaves the conductor's last cell there, whatever
  // covers it, through half the cell's length and the contact.
  tie.link = {0.5 * width / grid.conductor_area, 0.0, 1.0 / lug.contact_conductance};
  body.ties.push_back(tie);
  builder.finish();
}

}  // namespace

void add_bodies(const scenario::Scenario& scenario, double scale, Grid& grid) {
  for (std::size_t i = 0; i < scenario.run.size(); ++i) {
    if (std::holds_alternative<scenario::Knob>(scenario.run[i].kind)) {
      add_knob(scenario, i, scale, grid);
    } else if (std::holds_alternative<scenario::Lug>(scenario.run[i].kind)) {
      add_lug(scenario, i, scale, grid);
    } else if (scenario.run[i].facing) {
      add_facing(scenario, i, scale, grid);
    }
  }
}

}  // namespace ampstair::grid
