// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

namespace ampstair::quantities {

/// The kinds of quantity a sheet may hold. An absolute temperature is not a temperature difference.
enum class Dimension {
  ratio,                   ///< bare number, or a percentage
  count,                   ///< bare whole number
  length,                  ///< m
  area,                    ///< m2
  mass,                    ///< kg
  duration,                ///< s
  temperature,             ///< absolute, K
  temperature_difference,  ///< K
  current,                 ///< A
  voltage,                 ///< V
  power,                   ///< W
  resistance,              ///< ohm
  resistivity,             ///< ohm m
  speed,                   ///< m/s
  conductivity,            ///< W/m/K
  density,                 ///< kg/m3
  heat_capacity,           ///< per mass, J/kg/K
  film_coefficient,        ///< W/m2/K, also of a contact
  molar_energy,            ///< J/mol
  specific_energy,         ///< per mass, J/kg
  per_second,              ///< 1/s, of a reaction
  per_kelvin,              ///< 1/K, temperature coefficient
  angle,                   ///< rad
};

/// "length", "temperature difference", ...: the word used in messages.
std::string_view name_of(Dimension dimension);
/// SI unit in UDUNITS-2 spelling, "" for ratio and count.
std::string_view si_unit(Dimension dimension);

}  // namespace ampstair::quantities
