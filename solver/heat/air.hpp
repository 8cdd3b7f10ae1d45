// SPDX-License-Identifier: MIT
#pragma once

#include "heat/correlations.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::heat {

/// Dry air.
struct Air {
  double conductivity = 0.0;         ///< W/m/K
  double kinematic_viscosity = 0.0;  ///< m2/s
  double prandtl = 0.0;              ///< 1
};

/// Air at an absolute temperature [K], interpolated in the table of Incropera & DeWitt, appendix
/// A.4 (from memory; 250 K to 1500 K, the end values hold beyond).
/// @param pressure over one atmosphere; the viscosity is the dynamic one, which does not depend on
///        it, over the density, which goes with it (perfect gas)
Air air_at(double kelvin, double pressure = 1.0);
inline constexpr Range air_table_kelvin{250.0, 1500.0};

/// A surface as the air sees it.
enum class Shape { horizontal_cylinder, vertical_plate, vertical_cylinder };

/// Its size.
struct Extent {
  // Implicit: for most surfaces one length says it all.
  Extent(double length_, double height_ = 0.0) : length(length_), height(height_) {}  // NOLINT

  double length;  ///< m: diameter of the cylinder, height of the plate
  double height;  ///< m, of a vertical cylinder
};

/// Still or moving air over a surface.
struct Flow {
  double air_temperature = 0.0;          ///< K
  double speed = 0.0;                    ///< m/s
  scenario::Convection convection = {};  ///< which correlation, at which pressure
};

/// Convective film coefficient [W/m2/K], properties at the film temperature. Free and forced
/// convection are blended as (Nu_free^4 + Nu_forced^4)^(1/4) (Churchill 1977, AIChE J. 23, 10),
/// both over the extent's length: a wind blows across the wire, whichever way that runs. A vertical
/// cylinder has the mean over its height: plate times slender_cylinder_excess.
/// @param surface absolute temperature of the surface, K
double film_coefficient(Shape shape, const Extent& extent, double surface, const Flow& flow);

}  // namespace ampstair::heat
