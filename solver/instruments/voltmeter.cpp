// SPDX-License-Identifier: MIT
#include "instruments/voltmeter.hpp"

#include <limits>

namespace ampstair::instruments {

namespace {
constexpr double room_temperature = 293.15;  // K
}

double mean_temperature(double volts, double amperes, const ResistanceLine& line) {
  if (!(amperes > 0.0)) {
    return std::numeric_limits<double>::quiet_NaN();
  }
  return room_temperature + (volts / amperes / line.cold - 1.0) / line.coefficient;
}

double mean_temperature_error(double volts, double amperes, double part,
                              const ResistanceLine& line) {
  if (!(amperes > 0.0)) {
    return std::numeric_limits<double>::quiet_NaN();
  }
  return part * volts / amperes / line.cold / line.coefficient;
}

}  // namespace ampstair::instruments
