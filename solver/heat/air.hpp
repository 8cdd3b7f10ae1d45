// SPDX-License-Identifier: MIT
#pragma once

namespace ampstair::heat {

/// Dry air at one atmosphere.
struct Air {
  double conductivity = 0.0;         ///< W/m/K
  double kinematic_viscosity = 0.0;  ///< m2/s
  double prandtl = 0.0;              ///< 1
};

/// Air at an absolute temperature [K], interpolated in the table of Incropera & DeWitt, appendix
/// A.4 (from memory; 250 K to 1500 K, the end values hold beyond).
Air air_at(double kelvin);

/// Free convection from a long horizontal cylinder: mean Nusselt number over the diameter.
/// Churchill & Chu 1975, Int. J. Heat Mass Transfer 18, 1049; Ra <= 1e12.
double nusselt_free_cylinder(double rayleigh, double prandtl);

/// Free convection from a vertical plate: mean Nusselt number over the height.
/// Churchill & Chu 1975, Int. J. Heat Mass Transfer 18, 1323; any Ra.
double nusselt_free_plate(double rayleigh, double prandtl);

/// Flow across a long cylinder: mean Nusselt number over the diameter.
/// Churchill & Bernstein 1977, J. Heat Transfer 99, 300; Re Pr > 0.2.
double nusselt_crossflow_cylinder(double reynolds, double prandtl);

/// A surface as the air sees it.
enum class Shape { horizontal_cylinder, vertical_plate };

/// Still or moving air over a surface.
struct Flow {
  double air_temperature = 0.0;  ///< K
  double speed = 0.0;            ///< m/s
};

/// Convective film coefficient [W/m2/K], properties at the film temperature. Free and forced
/// convection are blended as (Nu_free^4 + Nu_forced^4)^(1/4) (Churchill 1977, AIChE J. 23, 10).
/// @param length diameter of the cylinder or height of the plate, m
/// @param surface absolute temperature of the surface, K
double film_coefficient(Shape shape, double length, double surface, const Flow& flow);

}  // namespace ampstair::heat
