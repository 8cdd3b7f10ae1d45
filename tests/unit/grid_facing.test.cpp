// SPDX-License-Identifier: MIT
#include <Eigen/Dense>
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstddef>
#include <numbers>

#include "grid/facing.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

constexpr double pi = std::numbers::pi;

/// Mean over [from, to] by the midpoint rule.
template <class Of>
double mean(double from, double to, const Of& of) {
  constexpr int parts = 20000;
  double sum = 0.0;
  for (int i = 0; i < parts; ++i) {
    sum += of(from + (i + 0.5) / parts * (to - from));
  }
  return sum / parts;
}

/// View factor of a strip of the cylinder's surface, at an angle from the nearest point, to the
/// plane's strip up to `half` on either side: half the difference of the sines of the angles with
/// its normal under which the ends are seen (Hottel's crossed strings for a small element; any
/// text), the part behind the horizon cut off.
double view_of_element(double angle, double radius, double axis, double half) {
  const double x = radius * std::sin(angle);
  const double above = axis - radius * std::cos(angle);
  const auto seen = [&](double end) {
    const double towards = std::atan2(end - x, above) - angle;  // from its normal
    return std::sin(std::clamp(towards, -0.5 * pi, 0.5 * pi));
  };
  return 0.5 * (seen(half) - seen(-half));
}

scenario::Facing joist(double distance, double width = 0.09) {
  return {solid("wood", 0.12, 480, 1600), distance, 0.04, width, 4e-3};
}

}  // namespace

TEST_CASE("a cylinder's view of a strip is the mean of what its surface sees") {
  for (const double axis : {3e-3, 5e-3, 20e-3}) {
    for (const double width : {2e-3, 10e-3, 90e-3}) {
      const double seen = mean(
          -pi, pi, [&](double angle) { return view_of_element(angle, 2.5e-3, axis, 0.5 * width); });
      CHECK(grid::view_of_strip(axis, width) == Approx(seen).epsilon(1e-5));
    }
  }
  CHECK(grid::view_of_strip(1.0, 2.0) == Approx(0.25));  // under 45 degrees on either side
  CHECK(grid::view_of_strip(1.0, 1e9) == Approx(0.5));   // a plane
}

TEST_CASE("conduction before a plane is the table's, and its part the integral of the flux") {
  // Two-dimensional field of a line source and its image: flux at an angle from the nearest point
  // sqrt(a^2 - r^2) / (acosh(a / r) (a - r cos angle)), per unit of conductivity and difference
  // (computed here).
  const double r = 2.5e-3;
  for (const double a : {2.6e-3, 4e-3, 20e-3}) {
    const double whole = 2.0 * pi / std::acosh(a / r);
    CHECK(grid::conduction_before_plane(r, a, pi) == Approx(whole));
    for (const double half : {0.3, 1.0, 2.5}) {
      const double part =
          2.0 * half * mean(-half, half, [&](double angle) {
            return std::sqrt(a * a - r * r) / std::acosh(a / r) / (a - r * std::cos(angle));
          });
      CHECK(grid::conduction_before_plane(r, a, half) == Approx(part).epsilon(1e-5));
    }
  }
}

TEST_CASE("what wire and wood radiate is that of a grey enclosure of three") {
  // Radiosities of cylinder, strip and a black room, solved as a linear system for a cylinder at
  // unit emissive power and all else at none (any text).
  const double r = 2.65e-3;
  const grid::Emissivities grey{0.8, 0.6};
  const auto facing = joist(3e-3, 0.03);
  const double axis = r + facing.distance;
  const double to_strip = grid::view_of_strip(axis, facing.width);
  const double back = to_strip * 2.0 * pi * r / facing.width;
  Eigen::Matrix2d system;
  system << 1.0, -(1.0 - grey.cylinder) * to_strip, -(1.0 - grey.strip) * back, 1.0;
  const Eigen::Vector2d radiosity = system.inverse() * Eigen::Vector2d(grey.cylinder, 0.0);
  const double to_room =
      radiosity(0) * (1.0 - to_strip) + radiosity(1) * (1.0 - back) * facing.width / (2.0 * pi * r);
  const double by_strip = grey.strip * radiosity(0) * to_strip;  // per area of the cylinder
  const auto geometry = grid::facing_geometry(facing, r, grey);
  CHECK(geometry.gap.exchange_width == Approx(2.0 * pi * r * by_strip));
  CHECK(geometry.radiates == Approx(to_room / grey.cylinder));
}

TEST_CASE("wood beyond the stagnant film gets radiation only, and far away next to none") {
  const double r = 2.65e-3;
  const auto beyond = grid::facing_geometry(joist(4.1e-3), r, {});
  CHECK(beyond.gap.conduction_shape == 0.0);
  CHECK(beyond.convects == 1.0);
  CHECK(beyond.face_convects == 1.0);
  CHECK(beyond.radiates < 0.7);
  const auto within = grid::facing_geometry(joist(3.9e-3), r, {});
  CHECK(within.convects == Approx(1.0 - std::acos((r + 3.9e-3) / (r + 4e-3)) / pi));
  CHECK(within.gap.conduction_shape > 0.0);
  const auto far = grid::facing_geometry(joist(0.9, 1e-3), r, {});
  CHECK(far.radiates == Approx(1.0).margin(2e-4));
  CHECK(far.gap.exchange_width < 1e-3 * 2.0 * pi * r);
}

TEST_CASE("heat that comes in as from a line before a plane goes on so in the depth") {
  // Line sources on the face of a half space, spread / (pi (spread^2 + x^2)) strong: each has
  // -ln(distance) / (pi k). Under the wire the sum falls by ln((spread + depth) / spread) / (pi k)
  // (by superposition, computed here), which is the chain's resistance as long as the wood is wide.
  const double spread = 8e-3;
  const auto potential = [&](double depth) {  // x = spread tan(angle) takes the weight out
    return mean(-0.5 * pi, 0.5 * pi, [&](double angle) {
      return -std::log(std::hypot(spread * std::tan(angle), depth)) / pi;
    });
  };
  for (const double depth : {2e-3, 10e-3, 40e-3}) {
    CHECK(potential(1e-9) - potential(depth) ==
          Approx(std::log((spread + depth) / spread) / pi).epsilon(1e-3));
  }
}

TEST_CASE("a faced piece has a chain of gap and wood at every station") {
  const double r = 2.6525e-3;
  for (const double scale : {0.5, 1.0, 3.0}) {
    Rig rig({copper(), 2.05e-3, {{"rubber", solid("rubber", 0.15, 1150, 1700), r - 1.025e-3}}},
            still_air(11));
    rig.insulated_end().piece("a", 0.2).piece("b", 0.1).faces(joist(2e-3)).insulated_end();
    const auto g = grid::build(rig.sheet, scale);
    double length = 0.0;
    double wood = 0.0;
    for (const auto& body : g.bodies) {
      REQUIRE(body.branch);
      REQUIRE(body.ties.size() == 1);
      const std::size_t j = body.ties.front().station;
      CHECK(rig.sheet.run[g.station_piece[j]].name == "b");
      const double step = g.station_face[j + 1] - g.station_face[j];
      length += step;
      double resistance = 0.0;
      for (std::size_t i = body.holds; i < body.cells; ++i) {
        wood += g.volume[body.first_cell + i];
        resistance +=
            body.chain[i - 1].shape_b + (i > body.holds ? body.chain[i - 1].shape_a : 0.0);
      }
      // From the face to the middle of the last cell: the widening part, then the slab.
      const double spread = std::sqrt((r + 2e-3) * (r + 2e-3) - r * r);
      const double whole = 0.09 / pi - spread;
      const double last = body.depth.back();
      CHECK(resistance * step == Approx(std::log((spread + std::min(whole, last)) / spread) / pi +
                                        std::max(0.0, last - whole) / 0.09));
    }
    CHECK(length == Approx(0.1));
    const double spread = std::sqrt((r + 2e-3) * (r + 2e-3) - r * r);
    const double whole = 0.09 / pi - spread;
    CHECK(wood == Approx(0.1 * (0.5 * (pi * spread + 0.09) * whole + 0.09 * (0.04 - whole))));
  }
}
