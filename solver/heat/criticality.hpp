// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "materials/material.hpp"

// Self-heating of a solid whose surface is held at one temperature, after Frank-Kamenetskii: the
// reactant hardly used up, the rate's exponent linear in temperature (covering.md).

namespace ampstair::heat {

enum class SolidShape { slab, cylinder, sphere };

/// Value of the parameter below above which there is no steady state: 0.878, 2, 3.32 (Frank-
/// Kamenetskii; from memory, very sure; 0.88, 2 and 3.32 seen).
double critical_parameter(SolidShape shape);

/// What a solid is made of, as far as self-heating goes.
struct SelfHeating {
  materials::Breakdown breakdown;
  double density = 0.0;       ///< kg/m3
  double conductivity = 0.0;  ///< W/m/K
};

/// Frank-Kamenetskii's parameter E / (R T^2) Q rho A exp(-E / (R T)) r^2 / k.
/// @param size r, m: radius, or half a slab's thickness
/// @param surface T, K
double frank_kamenetskii(const SelfHeating& solid, double size, double surface);

/// Surface temperature [K] at which the parameter becomes critical; absent where no temperature
/// below 2000 K makes it so.
std::optional<double> critical_surface(const SelfHeating& solid, SolidShape shape, double size);

/// R T^2 / E, K: the rise that makes the reaction about e times faster.
double temperature_scale(const materials::Breakdown& breakdown, double kelvin);

/// Steady rise of a cylinder's axis over its surface as a part of temperature_scale():
/// 2 ln(1 + B) with 8 B = parameter (1 + B)^2, the lesser root; absent above the critical
/// parameter.
std::optional<double> steady_rise_of_cylinder(double parameter);

/// Current [A] above which a wire of constant loss has no steady state, as its resistance rises
/// with temperature: sqrt(G / (R20 alpha)), with G the loss [W/m/K], R20 [ohm/m] at 20 degC and
/// alpha its coefficient [1/K] (energy balance of a straight-line resistance).
double runaway_current(double loss, double resistance, double coefficient);

/// What ends at one temperature add to the loss that a rise along a wire has to outgrow, W/m/K:
/// k A (pi / L)^2, by the slowest half wave that fits between them (eigenvalue of conduction along
/// a rod with held ends; Carslaw & Jaeger 3.3, from memory).
/// @param conduction k A of the conductor, W m/K; @param length L, m
double loss_to_held_ends(double conduction, double length);

}  // namespace ampstair::heat
