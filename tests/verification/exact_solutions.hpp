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

/// An isothermal core in one layer with a linear film: series of J0 and Y0 whose inner condition is
/// the core's heat balance, whose outer one the film (Carslaw & Jaeger, Conduction of Heat in
/// Solids, chapter 13, method; from memory).
class CoveredCore {
 public:
  struct Data {
    double core_radius, outer_radius;            ///< m
    double core_capacity;                        ///< J/m/K
    double conductivity, heat_per_volume, film;  ///< SI
  };
  explicit CoveredCore(const Data& data);

  /// Cooling, all at one temperature at first: part of the first excess over the air that is left.
  [[nodiscard]] double excess(double radius, double seconds) const;
  /// Heating by 1 W/m made in the core from t = 0 on, all as warm as the air at first, K m/W: the
  /// steady rise less what is missing to it, a sum of the same terms. The steady rise S has
  /// (r S')' = 0, so by Green's identity the amplitude of F is F(a) / (2 pi k root^2 norm).
  [[nodiscard]] double rise(double radius, double seconds) const;

 private:
  struct Term {
    double root, j, y;        // F(r) = j J0(root r) + y Y0(root r)
    double cooling, heating;  // amplitudes
  };
  [[nodiscard]] double sum(double Term::*amplitude, double radius, double seconds) const;

  Data data_;
  std::vector<Term> terms_;
};

/// A cylinder with heat made evenly inside from t = 0 on and a linear film outside, as warm as the
/// air at first. With x = r / a, Fo = kappa t / a^2, Bi = h a / k, g the heat made per volume:
///   (T - Ta) k / (g a^2) = (1 - x^2) / 4 + 1 / (2 Bi)
///       - sum of 2 Bi J0(b x) / (b^2 (b^2 + Bi^2) J0(b)) exp(-b^2 Fo),  b J1(b) = Bi J0(b).
/// (Carslaw & Jaeger, Conduction of Heat in Solids, from memory; computed here.)
class HeatedCylinder {
 public:
  explicit HeatedCylinder(double biot);
  [[nodiscard]] double theta(double x, double fourier) const;
  [[nodiscard]] const std::vector<double>& roots() const { return roots_; }

 private:
  double biot_;
  std::vector<double> roots_;
};

/// A half space under a constant flux q from t = 0 on:
///   rise = 2 q / k sqrt(kappa t / pi) exp(-x^2 / (4 kappa t)) - q x / k erfc(x / (2 sqrt(kappa
///   t))).
/// (Carslaw & Jaeger, Conduction of Heat in Solids, section 2.9; from memory.)
struct HalfSpaceUnderFlux {
  double conductivity;     ///< W/m/K
  double heat_per_volume;  ///< J/m3/K
  double flux;             ///< W/m2

  [[nodiscard]] double rise(double depth, double seconds) const;
};

}  // namespace ampstair::tests
