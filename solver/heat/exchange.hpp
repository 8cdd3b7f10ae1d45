// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "heat/air.hpp"
#include "heat/ambient.hpp"
#include "heat/exchange_law.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::heat {

/// What an exposed face looks like to its surroundings.
struct FaceKind {
  enum class To { air, held };  ///< held: at the air's temperature (or `held_at`) with no film
  To to = To::air;
  Shape shape = Shape::horizontal_cylinder;
  double length = 0.0;      ///< m: diameter or height of a plate
  double height = 0.0;      ///< m, of a vertical cylinder
  double emissivity = 0.9;  ///< its own; a FixedFilm may replace it
  double held_at = 0.0;     ///< K, for To::held; 0: the air's temperature
  std::size_t surroundings = 0;
  double convects = 1.0;  ///< part of the area along which air rises
  double radiates = 1.0;  ///< part of what it emits that the walls take up

  friend bool operator==(const FaceKind&, const FaceKind&) = default;
};

/// Heat given off per area by one kind of face, as a function of its surface temperature, for the
/// surroundings of the moment.
class Exchange {
 public:
  Exchange(const FaceKind& kind, const scenario::Surroundings& surroundings, double time);

  /// Goes over to another ambient. The film coefficient is made anew for it, but only where it is
  /// going to be read.
  /// @param coldest, hottest K, between which all surfaces are going to be
  void set(const Ambient& ambient, double coldest, double hottest);

  struct Flux {
    double value = 0.0;  ///< W/m2, positive outwards
    double slope = 0.0;  ///< W/m2/K
  };
  /// Convection and grey radiation to the walls from a surface at an absolute temperature [K].
  [[nodiscard]] Flux at(double surface) const;

  /// The part of it that goes to the walls, W/m2, and its slope, W/m2/K.
  [[nodiscard]] double radiated(double surface) const {
    return radiation_ * surface * surface * surface * surface - walls_emission_;
  }
  [[nodiscard]] double radiated_slope(double surface) const {
    return 4.0 * radiation_ * surface * surface * surface;
  }

  /// Flux through a face whose cell, behind a conductance per area [W/m2/K], is at `cell` [K].
  struct Surface {
    double temperature = 0.0;  ///< K of the surface
    double flux = 0.0;         ///< W/m2
    double slope = 0.0;        ///< d flux / d cell temperature, W/m2/K
  };
  /// @param guess surface temperature to start from, K; the answer does not depend on it
  [[nodiscard]] Surface behind(double conductance, double cell, double guess) const;
  /// The same before another ambient, with the film coefficient of this one at an equal excess: a
  /// change of the air by some kelvin does next to nothing to that.
  [[nodiscard]] Surface behind(double conductance, double cell, double guess,
                               const Ambient& ambient) const;

  /// The same as plain numbers, good while this object lives and is not moved; not for a held face.
  [[nodiscard]] ExchangeLaw law() const;

  [[nodiscard]] bool held() const { return held_; }
  /// K; of a held face, what it is held at.
  [[nodiscard]] double air_temperature() const { return air_; }

 private:
  struct Film {
    double value;             // W/m2/K
    double slope_times_rise;  // d value / d surface temperature, times the rise over the air
  };
  [[nodiscard]] Film film(double rise) const;
  [[nodiscard]] Flux flux(double surface, double air, double walls_emission) const;
  [[nodiscard]] double held_at(const Ambient& ambient) const;
  [[nodiscard]] double emission(double walls) const;
  void tabulate(std::size_t first, std::size_t last);
  void face(const Ambient& ambient);

  FaceKind kind_;
  scenario::Convection convection_;
  Ambient ambient_;
  bool held_ = false;
  double air_ = 0.0;        // K
  double radiation_ = 0.0;  // emissivity times Stefan-Boltzmann
  double walls_emission_ = 0.0;
  double fixed_ = 0.0;  // W/m2/K where the film is given
  // The table, where it is not: coefficient and its slope per interval, point by point.
  std::vector<std::array<double, 2>> film_;
};

}  // namespace ampstair::heat
