// SPDX-License-Identifier: MIT
#pragma once

namespace ampstair::instruments {

/// An infrared camera as it is set up.
struct Camera {
  double emissivity_set = 0.95;  ///< what it is told of the surface
  double reflected = 0.0;        ///< K, what it is told the surface mirrors
  double ceiling = 0.0;          ///< K, end of its scale; 0: none given
  double distance = 0.0;         ///< m to the wire
  double pixel_angle = 0.0;      ///< rad, seen by one pixel; 0: the spot is full
  double band_begin = 8e-6;      ///< m, wavelengths it is sensitive to
  double band_end = 14e-6;       ///< m
};

/// What is in front of it.
struct Seen {
  double temperature = 0.0;  ///< K of the surface
  double emissivity = 1.0;   ///< of the surface
  double width = 0.0;        ///< m, across the wire
  double around = 0.0;       ///< K of what the surface mirrors and what stands behind it
};

/// What it shows.
struct CameraReading {
  double temperature = 0.0;  ///< K; where `at_ceiling`, the ceiling: the surface is at or above
  double filled = 1.0;       ///< part of the spot that the wire fills
  bool at_ceiling = false;
};

/// Pixels across a spot that a reading needs (common practice, no source).
inline constexpr double pixels_of_a_spot = 3.0;

/// Radiance [W/m2/sr] of a black body between two wavelengths [m]: Planck's law, integrated by the
/// series of Chang & Rhee 1984, Int. Comm. Heat Mass Transfer 11, 451 (from memory).
/// @param kelvin above 0
double band_radiance(double kelvin, double band_begin, double band_end);

/// The inverse of band_radiance [K]; 0 where the radiance is none or less.
double radiating_at(double radiance, double band_begin, double band_end);

/// What the camera would show: it gets e L(T) + (1 - e) L(T_around) from the part of the spot that
/// is wire and L(T_around) from the rest, and solves for T with what it is set to.
CameraReading read(const Camera& camera, const Seen& seen);

}  // namespace ampstair::instruments
