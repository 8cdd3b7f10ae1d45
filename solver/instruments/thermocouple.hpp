// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

namespace ampstair::instruments {

/// A thermocouple as it is fixed to the wire.
struct Thermocouple {
  double lag = 0.0;        ///< s, its time constant
  double lead_loss = 0.0;  ///< part of the excess over the air that its leads draw off
};

/// What a thermocouple shows of a place, moment by moment: T_bead' = (T_seen - T_bead) / lag with
/// T_seen = T - lead_loss (T - T_air), solved exactly for what is linear between moments. It begins
/// in step with the place.
class ThermocoupleReading {
 public:
  explicit ThermocoupleReading(const Thermocouple& couple) : couple_(couple) {}

  /// @param time s, not before the one added last
  /// @param temperature K of the place
  /// @param air K
  /// @return what it shows, K
  double add(double time, double temperature, double air);

 private:
  Thermocouple couple_;
  struct Last {
    double time, seen, shown;
  };
  std::optional<Last> last_;
};

/// How far a type K couple of tolerance class 1 may be off at a temperature [K], in K: 1.5 K or
/// 0.4 % of the Celsius temperature, whichever is more (IEC 60584-1, from memory).
double class_1_tolerance(double kelvin);

}  // namespace ampstair::instruments
