// SPDX-License-Identifier: MIT
#include "grid/facing.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "grid/body_builder.hpp"
#include "grid/column.hpp"
#include "grid/spacing.hpp"

namespace ampstair::grid {

namespace {

constexpr double pi = std::numbers::pi;
// What a gap of surfaces that do not radiate still has, so that its cells have a temperature.
constexpr double least_exchange = 1e-6;  // m

/// Gebhart's absorption factors of a convex cylinder and a flat strip in a large room: what part of
/// the cylinder's emission the strip takes up, and what part the cylinder itself, after all
/// reflections (Gebhart 1961, Int. J. Heat Mass Transfer 3, 341; from memory).
struct Absorption {
  double by_strip, by_itself;
};

Absorption absorption(double to_strip, double to_cylinder, const Emissivities& emissivity) {
  const double reflected_there = 1.0 - emissivity.strip;
  const double to_and_fro = to_strip * to_cylinder;
  const double left = 1.0 - (1.0 - emissivity.cylinder) * reflected_there * to_and_fro;
  return {to_strip * emissivity.strip / left,
          reflected_there * to_and_fro * emissivity.cylinder / left};
}

/// Half the angle under which the cylinder has the strip within its stagnant film.
double angle_within_film(const scenario::Facing& facing, double radius, double axis) {
  const double film = radius + facing.stagnant_film;
  return axis < film ? std::min(std::acos(axis / film), std::atan(0.5 * facing.width / axis)) : 0.0;
}

/// One station's chain.
class Chain {
 public:
  Chain(const scenario::Scenario& scenario, std::size_t piece, double scale, Grid& grid)
      : facing_(*scenario.run[piece].facing),
        around_(scenario.run[piece].around),
        grid_(grid),
        builder_(grid, scenario.run[piece]),
        scale_(scale) {}

  void lay(std::size_t station, const FacingGeometry& geometry) {
    length_ = grid_.station_face[station + 1] - grid_.station_face[station];
    SideBody& body = builder_.body();
    body.position = grid_.station_centre[station];
    body.branch = true;
    add_gap(geometry);
    body.holds = body.cells;
    body.spots.push_back({"wood", body.holds, true});
    add_wood(geometry);
    tie(station);
    builder_.finish();
  }

 private:
  /// Air in a few cells, and the wood's face: a cell of next to no heat capacity, whose temperature
  /// is the surface's.
  void add_gap(const FacingGeometry& geometry) {
    const auto cells = std::max<std::size_t>(2, static_cast<std::size_t>(std::lround(3 * scale_)));
    half_gap_ = 0.5 / (static_cast<double>(cells) * length_);
    const Medium air{nullptr, {}, "gap", geometry.gap};
    const double volume = geometry.face_width * facing_.distance * length_;
    for (std::size_t i = 0; i <= cells; ++i) {
      builder_.add_cell(volume / static_cast<double>(cells + 1), air);
      if (i > 0) {
        builder_.link({half_gap_, i < cells ? half_gap_ : 0.0, 0.0});
      }
    }
    Exposure face = plate();
    face.convects = geometry.face_convects;
    face.radiates = geometry.face_radiates;
    constexpr double nothing_between = 1e9;  // 1/m
    const double area = geometry.face_width * length_;
    builder_.expose(cells, area, nothing_between * area, face);
  }

  /// Heat that comes in as spread / (pi (spread^2 + x^2)) along x goes on so in the depth, spread
  /// growing by the depth: under the wire it is as in a slab that grows wider by pi times the
  /// depth, until it is as wide as the wood.
  void add_wood(const FacingGeometry& geometry) {
    const double whole = std::max(0.0, facing_.width / pi - geometry.spread);  // depth of that
    const auto width = [&](double x) {
      return std::min(facing_.width, pi * (geometry.spread + x));
    };
    const auto area = [&](double from, double to) {
      const double knee = std::clamp(whole, from, to);
      return 0.5 * (width(from) + width(knee)) * (knee - from) + facing_.width * (to - knee);
    };
    const auto resistance = [&](double from, double to) {
      const double knee = std::clamp(whole, from, to);
      const double widening = std::log((geometry.spread + knee) / (geometry.spread + from)) / pi;
      return (widening + (to - knee) / facing_.width) / length_;
    };
    const auto wanted = [&](double x) { return (0.5e-3 + 0.12 * x) / scale_; };
    const auto depth = graded(0.0, facing_.depth, wanted, 4);
    double before = 0.0;
    for (std::size_t i = 0; i + 1 < depth.size(); ++i) {
      const double middle = 0.5 * (depth[i] + depth[i + 1]);
      const auto cell =
          builder_.add_cell(area(depth[i], depth[i + 1]) * length_, facing_.wood, "wood");
      builder_.body().depth[cell] = middle;
      builder_.link({before, resistance(depth[i], middle), 0.0});
      before = resistance(middle, depth[i + 1]);
    }
    builder_.body().end_depth = facing_.depth;
    builder_.expose(builder_.body().cells - 1, width(facing_.depth) * length_, 1.0 / before,
                    plate());
  }

  /// The outermost cell gives to the gap and to the room through one surface all round.
  void tie(std::size_t station) {
    const Patch& patch = grid_.patches[grid_.top_patch[station]];
    const double inner = patch.radius[patch.rows - 1];
    SideBody::Tie tie;
    tie.station = station;
    tie.cell = patch.row(patch.rows - 1) + station - patch.first_station;
    if (inner > 0.0) {  // else the conductor, which is its own surface
      tie.face = grid_.outer_face[station];
      tie.link.shape_a =
          (std::log(patch.radius.back()) - log_mean_radius(inner, patch.radius.back())) /
          (2.0 * pi * length_);
    }
    tie.link.shape_b = half_gap_;
    builder_.body().ties.push_back(tie);
  }

  [[nodiscard]] Exposure plate() const {
    Exposure plate;
    plate.shape = Exposure::Shape::plate;
    plate.length = facing_.width;
    plate.emissivity = facing_.wood->emissivity;
    plate.surroundings = around_;
    return plate;
  }

  const scenario::Facing& facing_;
  std::size_t around_;
  Grid& grid_;
  BodyBuilder builder_;
  double scale_;
  double length_ = 0.0;    // m
  double half_gap_ = 0.0;  // 1/m
};

}  // namespace

double view_of_strip(double axis, double width) {
  return std::atan(0.5 * width / axis) / pi;
}

double conduction_before_plane(double radius, double axis, double half_angle) {
  const double whole = 2.0 * pi / std::acosh(axis / radius);
  return whole * (2.0 / pi) *
         std::atan(std::sqrt((axis + radius) / (axis - radius)) * std::tan(0.5 * half_angle));
}

FacingGeometry facing_geometry(const scenario::Facing& facing, double radius,
                               const Emissivities& emissivity) {
  const double axis = radius + facing.distance;
  const double round = 2.0 * pi * radius;
  const double angle = angle_within_film(facing, radius, axis);
  FacingGeometry geometry;
  geometry.spread = std::sqrt(axis * axis - radius * radius);
  geometry.face_width = std::min(facing.width, pi * geometry.spread);
  const double to_strip = view_of_strip(axis, facing.width);
  const auto taken = absorption(to_strip, to_strip * round / facing.width, emissivity);
  geometry.gap.exchange_width =
      std::max(least_exchange, round * emissivity.cylinder * taken.by_strip);
  geometry.gap.conduction_shape = conduction_before_plane(radius, axis, angle);
  geometry.convects = 1.0 - angle / pi;
  geometry.radiates = 1.0 - taken.by_strip - taken.by_itself;
  const double within = 2.0 * axis * std::tan(angle);
  geometry.face_convects = 1.0 - std::min(1.0, within / geometry.face_width);
  geometry.face_radiates =
      1.0 - view_of_strip(axis, geometry.face_width) * round / geometry.face_width;
  return geometry;
}

FacingGeometry facing_of(const scenario::Scenario& scenario, std::size_t piece, double radius,
                         double emissivity) {
  const auto& facing = *scenario.run[piece].facing;
  const auto& film = scenario.surroundings[scenario.run[piece].around].film;
  if (film && film->emissivity) {
    return facing_geometry(facing, radius, {*film->emissivity, *film->emissivity});
  }
  return facing_geometry(facing, radius, {emissivity, facing.wood->emissivity});
}

void add_facing(const scenario::Scenario& scenario, std::size_t piece, double scale, Grid& grid) {
  for (std::size_t j = 0; j < grid.stations(); ++j) {
    if (grid.station_piece[j] != piece) {
      continue;
    }
    const Patch& patch = grid.patches[grid.top_patch[j]];
    const Face& face = grid.faces[grid.outer_face[j]];
    Chain(scenario, piece, scale, grid)
        .lay(j, facing_of(scenario, piece, patch.radius.back(),
                          grid.exposures[face.exposure].emissivity));
  }
}

}  // namespace ampstair::grid
