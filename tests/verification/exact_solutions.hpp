// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

namespace ampstair::tests {

/// Steady layered cylinder: heat made inside leaves through concentric layers and a linear film.
/// Rise over a ring: q ln(r2 / r1) / (2 pi k); over the film: q / (2 pi r h).
/// (Any text; Cengel & Ghajar, Heat and Mass Transfer, section 3-4.)
struct LayeredCylinder {
  struct Layer {
    double outer_radius;  ///< m
    double conductivity;  ///< W/m/K
  };
  double core_radius;         ///< m
  std::vector<Layer> layers;  ///< from inside out
  double film;                ///< W/m2/K at the outermost radius

  /// Thermal resistance of everything from a radius outwards, K m/W.
  [[nodiscard]] double resistance_from(double radius) const;
};

/// Steady bare wire between ends held at the air's temperature, linear film, linear resistance:
///   k A T'' - hP (T - Ta) + I^2 R20 (1 + alpha (T - 20)) = 0.
/// The fin equation with uniform source; any text on fins (Cengel & Ghajar, section 3-6).
struct FinBetweenHeldEnds {
  double length;         ///< m
  double axial;          ///< k A, W m/K
  double loss;           ///< h P, W/m/K
  double air;            ///< degC, of the air and the ends
  double current;        ///< A
  double resistance_20;  ///< ohm/m at 20 degC
  double coefficient;    ///< 1/K at 20 degC

  [[nodiscard]] double long_wire_rise() const;  ///< K, far from any end
  [[nodiscard]] double rise(double x) const;    ///< K at x from an end
  [[nodiscard]] double mean_rise() const;       ///< K over the length
};

/// Wire heated with nothing lost: IEC 60949, I = K S sqrt(ln((Tf + beta) / (Ti + beta)) / t) with
/// K^2 = Qc (beta + 20) / rho20.
struct AdiabaticHeating {
  double heat_per_volume;  ///< Qc, J/m3/K
  double resistivity_20;   ///< ohm m
  double beta;             ///< degC, 1/alpha20 - 20
  double area;             ///< m2

  [[nodiscard]] double constant() const;  ///< K, A s^1/2 / m2
  /// Seconds from one temperature to another [degC] at a current [A].
  [[nodiscard]] double seconds(double current, double from, double to) const;
  /// Temperature [degC] after some seconds.
  [[nodiscard]] double celsius(double current, double from, double seconds) const;
};

/// Lumped body in a linear film: T = Ta + (T0 - Ta) exp(-t / tau).
struct LumpedCooling {
  double time_constant;  ///< s
  double air, start;     ///< degC

  [[nodiscard]] double celsius(double seconds) const;
};

/// Peak rise of an endless fin heated evenly over a stretch: p / G (1 - exp(-L / 2 lambda)).
struct JointInLongFin {
  double watt;    ///< made in the stretch over what the wire beside it makes
  double length;  ///< m, of the stretch
  double axial;   ///< k A, W m/K
  double loss;    ///< G, W/m/K

  [[nodiscard]] double peak_rise() const;
};

/// Cooling of an isothermal core in one layer with a linear film, all at one temperature at first:
/// series of J0 and Y0 whose inner condition is the core's heat balance, whose outer one the film
/// (Carslaw & Jaeger, Conduction of Heat in Solids, chapter 13, method; from memory).
class CoveredCoreCooling {
 public:
  struct Data {
    double core_radius, outer_radius;            ///< m
    double core_capacity;                        ///< J/m/K
    double conductivity, heat_per_volume, film;  ///< SI
  };
  explicit CoveredCoreCooling(const Data& data);

  /// Part of the first excess over the air's temperature that is left.
  [[nodiscard]] double excess(double radius, double seconds) const;

 private:
  struct Term {
    double root, j, y, amplitude;  // F(r) = j J0(root r) + y Y0(root r)
  };
  Data data_;
  std::vector<Term> terms_;
};

}  // namespace ampstair::tests
