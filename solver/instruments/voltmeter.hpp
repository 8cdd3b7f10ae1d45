// SPDX-License-Identifier: MIT
#pragma once

namespace ampstair::instruments {

/// The straight line by which resistance tells a mean temperature.
struct ResistanceLine {
  double cold = 0.0;         ///< ohm between the taps at 20 degC
  double coefficient = 0.0;  ///< 1/K at 20 degC
};

/// Mean temperature [K] of the wire between the taps, as a person works it out from volts and
/// amperes: R = R20 (1 + alpha (T - 20 degC)). NaN without current.
double mean_temperature(double volts, double amperes, const ResistanceLine& line);

/// Error [K] of that mean that an error of the volts, given as a part of them, brings.
double mean_temperature_error(double volts, double amperes, double part,
                              const ResistanceLine& line);

}  // namespace ampstair::instruments
