// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "checks/findings.hpp"
#include "checks/histories.hpp"

namespace ampstair::post::checks {

/// What an instrument of the run sheet would have told at the end of a step, beside what was there.
struct InstrumentReading {
  enum class Of { temperature, volts };
  std::string instrument;  ///< "camera", a thermocouple's name, "voltmeter", "hand"
  std::string place;       ///< as the sheet writes it
  std::size_t step = 0;    ///< number, from 1
  Of of = Of::temperature;
  double real = 0.0;   ///< K of what it is put to, or V; NaN, like `shown`, where it meets nothing
  double shown = 0.0;  ///< K or V; of a hand the temperature skin and surface take on between them
  std::string remark;  ///< what a reader of the instrument must know; may be empty
};

/// What is remarked where an instrument meets nothing.
inline constexpr const char* nothing_faces_the_air =
    "nothing faces the air there: it cannot be reached or seen";

/// Readings of all instruments a record carries, by instrument and step; none before format 1.3 or
/// where the sheet names none. The camera's surroundings are what it is told to be mirrored.
std::vector<InstrumentReading> readings(const Histories& histories, const Findings& findings);

}  // namespace ampstair::post::checks
