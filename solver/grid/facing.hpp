// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>

#include "grid/grid.hpp"

namespace ampstair::grid {

/// What lies between a long cylinder and a flat strip along it, and what is left to the room; see
/// heat/facing.md.
struct FacingGeometry {
  double face_width = 0.0;     ///< m of the strip's face that stands for where the heat comes in
  double spread = 0.0;         ///< m: half the width, at half its height, of how it comes in
  FacedGap gap;                ///< from the cylinder to the strip
  double convects = 1.0;       ///< part of the cylinder's surface that air rises along
  double radiates = 1.0;       ///< part of what the cylinder emits that the room takes up
  double face_convects = 1.0;  ///< likewise of face_width
  double face_radiates = 1.0;
};

/// Emissivities of the cylinder and of the strip.
struct Emissivities {
  double cylinder = 0.9;
  double strip = 0.9;
};

/// View factor from a long cylinder to a long strip as wide as `width` [m] whose middle is nearest
/// to it, `axis` [m] being the distance of its axis: atan(width / (2 axis)) / pi (Incropera &
/// DeWitt table 13.1, cylinder and parallel rectangle; from memory, very sure).
double view_of_strip(double axis, double width);

/// Conduction shape factor [1, per length] of a cylinder of `radius` [m] with its axis `axis` [m]
/// before a plane, for the part of its circumference up to the angle `half_angle` on either side of
/// the nearest point. All of it (pi) has 2 pi / acosh(axis / radius) (Incropera & DeWitt table 4.1,
/// from memory, very sure); the part is the integral of the same field's flux,
///   (2 / pi) atan(sqrt((axis + radius) / (axis - radius)) tan(half_angle / 2)).
double conduction_before_plane(double radius, double axis, double half_angle);

/// @param radius of the cylinder, m
FacingGeometry facing_geometry(const scenario::Facing& facing, double radius,
                               const Emissivities& emissivity);

/// The same for a piece of a scenario that faces wood, whose surroundings may give all surfaces one
/// emissivity.
/// @param emissivity of the piece's outside
FacingGeometry facing_of(const scenario::Scenario& scenario, std::size_t piece, double radius,
                         double emissivity);

/// Adds a chain of cells at every station of such a piece: the gap, the wood's face, the wood.
void add_facing(const scenario::Scenario& scenario, std::size_t piece, double scale, Grid& grid);

}  // namespace ampstair::grid
