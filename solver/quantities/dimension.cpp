// SPDX-License-Identifier: MIT
#include "quantities/dimension.hpp"

#include <array>
#include <cstddef>

#include "diagnostics/contract.hpp"

namespace ampstair::quantities {

namespace {

struct Row {
  Dimension dimension;
  std::string_view name;
  std::string_view si_unit;
};

// In the order of the enumeration, so that a row is found by its index.
constexpr std::array<Row, 23> rows{{
    {Dimension::ratio, "ratio", ""},
    {Dimension::count, "count", ""},
    {Dimension::length, "length", "m"},
    {Dimension::area, "area", "m2"},
    {Dimension::mass, "mass", "kg"},
    {Dimension::duration, "duration", "s"},
    {Dimension::temperature, "temperature", "K"},
    {Dimension::temperature_difference, "temperature difference", "K"},
    {Dimension::current, "current", "A"},
    {Dimension::voltage, "voltage", "V"},
    {Dimension::power, "power", "W"},
    {Dimension::resistance, "resistance", "ohm"},
    {Dimension::resistivity, "resistivity", "ohm m"},
    {Dimension::speed, "speed", "m/s"},
    {Dimension::conductivity, "thermal conductivity", "W/m/K"},
    {Dimension::density, "density", "kg/m3"},
    {Dimension::heat_capacity, "specific heat capacity", "J/kg/K"},
    {Dimension::film_coefficient, "heat transfer coefficient", "W/m2/K"},
    {Dimension::molar_energy, "molar energy", "J/mol"},
    {Dimension::specific_energy, "energy per mass", "J/kg"},
    {Dimension::per_second, "frequency", "1/s"},
    {Dimension::per_kelvin, "temperature coefficient", "1/K"},
    {Dimension::angle, "plane angle", "rad"},
}};

const Row& row_of(Dimension dimension) {
  const auto index = static_cast<std::size_t>(dimension);
  diagnostics::expects(index < rows.size() && rows[index].dimension == dimension,
                       "the table of dimensions follows the enumeration");
  return rows[index];
}

}  // namespace

std::string_view name_of(Dimension dimension) {
  return row_of(dimension).name;
}

std::string_view si_unit(Dimension dimension) {
  return row_of(dimension).si_unit;
}

}  // namespace ampstair::quantities
