// SPDX-License-Identifier: MIT
#pragma once

#include <limits>
#include <vector>

#include "heat/enthalpy.hpp"
#include "materials/material.hpp"

namespace ampstair::heat {

/// Wood that dries once and chars once (wood.md). Its enthalpy variable u (see Enthalpy) follows
/// one curve the first time it is warmed, with the heat of drying in it; below the largest u it has
/// had, the heat capacity is that of what is left. Properties are per kg of oven-dry wood.
class Wood {
 public:
  /// What the hottest a piece of wood has been has left of it.
  struct Past {
    double most = -std::numeric_limits<double>::infinity();  ///< largest u so far, K
    double hottest = 0.0;                                    ///< K, the temperature there
    double moist = 1.0;  ///< kg of dry wood and its water, per kg of dry wood at first ...
    double dry = 0.0;    ///< kg of dried wood, ...
    double coal = 0.0;   ///< kg of char

    [[nodiscard]] bool changed() const { return hottest > 0.0; }
  };

  /// @param material whose conductivity and heat capacity are those of the oven-dry wood
  explicit Wood(const materials::Material& material);

  /// Heat capacity the first time it is warmed, J/K per kg of dry wood; its reference is also that
  /// of every u here.
  [[nodiscard]] const materials::Curve& first_heating() const { return first_heating_; }
  /// What is left where u has been as large as this; unchanged below 99 degC.
  [[nodiscard]] Past past(double most) const;
  /// Temperature [K] and dT/du at a u of wood with this past. Where the past ends, the slope is
  /// that of what is left: the steeper one, with which the implicit operator of a time step errs
  /// towards damping, whether the wood goes on drying or cools.
  [[nodiscard]] Enthalpy::State at(double u, const Past& past) const {
    return u <= past.most ? again(u, past) : enthalpy_.at(u);
  }
  /// W/m/K at a temperature [K].
  [[nodiscard]] double conductivity(double kelvin, const Past& past) const;

 private:
  struct Knot {
    double temperature;
    double moist, dry, coal;                 // J/K per kg of dry wood (char: per kg of char)
    double moist_heat, dry_heat, coal_heat;  // J, their integrals from the first knot
  };
  /// Shares of moist and dried wood and of char, by the hottest it has been.
  struct Shares {
    double dried, charred;
  };

  void lay_first_heating(const materials::Curve& mass);
  void lay_knots();
  [[nodiscard]] double moist_capacity(double kelvin) const;
  [[nodiscard]] static Shares shares(double hottest);
  [[nodiscard]] Enthalpy::State again(double u, const Past& past) const;
  [[nodiscard]] double sum(const Past& past, double moist, double dry, double coal) const {
    return (past.moist * moist + past.dry * dry + past.coal * coal) /
           enthalpy_.reference_capacity();
  }

  double moisture_;
  double specific_gravity_;
  double dry_at_24_;  // W/m/K
  materials::Curve dry_conductivity_, coal_conductivity_;
  materials::Curve dry_capacity_, coal_capacity_, coal_mass_;
  materials::Curve first_heating_;
  Enthalpy enthalpy_;
  std::vector<Knot> knots_;
  double drying_u_ = 0.0;  // K, where drying (or, of dry wood, charring) begins
};

}  // namespace ampstair::heat
