// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "quantities/dimension.hpp"

namespace ampstair::quantities {

/// Why a text is not the quantity asked for. `code` and wording follow the message formula.
struct Fault {
  std::string code;    ///< "E110" unit missing, "E111" wrong kind, "E112" ambiguous, ...
  std::string what;    ///< what is wrong, naming the text read
  std::string remedy;  ///< what to write instead
};

/// Either a value in SI or the fault; never both.
struct Parsed {
  double si = 0.0;
  std::optional<Fault> fault;
};

/// Reads "1.10 m", "3/64 in", "1 h 20 min", "16 mm2", "1.6 mohm", "0.042 W/m/K", "12 degC", "5 %".
/// @param text what stood in the sheet, trimmed
/// @param dimension what is needed
/// @param subject how messages name it, e.g. "'length' of piece 'south leg'"
/// Units are UDUNITS-2's. Temperatures need degC, degF or K; differences K, Cdeg or Fdeg.
Parsed parse_quantity(std::string_view text, Dimension dimension, std::string_view subject);

/// Diameter in m of a wire gauge: "No. 12" (Brown & Sharpe = AWG, ASTM B258) or "No. 18 SWG".
Parsed parse_gauge(std::string_view text, std::string_view subject);

/// The gauge of ASTM B258 nearest to a diameter [m]: "No. 14", "No. 2/0".
std::string nearest_gauge(double diameter);

/// A short text with unit for people: "1.10 m", "22 min", "31 A", "60.0 degC", "1.6 mohm".
std::string format(double si, Dimension dimension);

}  // namespace ampstair::quantities
