// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "quantities/dimension.hpp"

namespace ampstair::quantities {

/// What a unit's text turned out to be. UDUNITS-2 stays behind this.
struct UnitReading {
  bool known = false;     ///< UDUNITS-2 reads it
  bool fits = false;      ///< of the dimension asked for, temperatures told from differences
  bool has_zero = false;  ///< its zero is not SI's (degC, degF)
  double factor = 1.0;    ///< SI value = factor * number + offset
  double offset = 0.0;
  std::string kind;  ///< "a current", "an angle"; empty where no everyday name fits
  std::string name;  ///< "ampere"; empty where UDUNITS-2 has none
};

/// Reads a unit. Thread-safe. Throws diagnostics::InputError where the units database of
/// UDUNITS-2 is not installed.
UnitReading read_unit(std::string_view text, Dimension wanted);

/// The same number with its unit, from SI: 1.10 m in "in" is 43.3.
double from_si(double si, std::string_view unit, Dimension dimension);

/// "a length", "an area".
std::string with_article(std::string_view noun);

}  // namespace ampstair::quantities
