// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>

namespace ampstair::watch {

/// A limit somebody wants watched. No limit is built in; each says where it came from.
struct Item {
  enum class Kind { above, dose, char_depth };
  std::string name;
  std::string part;  ///< "conductor", "surface", "rubber", "wood", ...
  Kind kind = Kind::above;

  double limit = 0.0;          ///< K, for Kind::above
  std::optional<double> low;   ///< K, band of the limit
  std::optional<double> high;  ///< K
  double persistence = 0.0;    ///< s the limit must be exceeded without a break

  double activation_energy = 0.0;      ///< J/mol, for Kind::dose
  std::optional<double> energy_low;    ///< J/mol, band of the activation energy
  std::optional<double> energy_high;   ///< J/mol
  double reference_duration = 0.0;     ///< s at reference_temperature that make the full dose
  double reference_temperature = 0.0;  ///< K

  double depth = 0.0;     ///< m, for Kind::char_depth
  double isotherm = 0.0;  ///< K

  std::string from;  ///< where the limit came from
};

}  // namespace ampstair::watch
