// SPDX-License-Identifier: MIT
#include "instruments/thermocouple.hpp"

#include <algorithm>
#include <cmath>

namespace ampstair::instruments {

double ThermocoupleReading::add(double time, double temperature, double air) {
  const double seen = temperature - couple_.lead_loss * (temperature - air);
  double shown = seen;
  if (last_ && couple_.lag > 0.0) {
    const double duration = time - last_->time;
    if (duration > 0.0) {
      // Behind a ramp of slope m it settles at a distance of m lag.
      const double behind = (seen - last_->seen) / duration * couple_.lag;
      shown =
          seen - behind + (last_->shown - last_->seen + behind) * std::exp(-duration / couple_.lag);
    } else {
      shown = last_->shown;  // the place has jumped, the bead has not
    }
  }
  last_ = {time, seen, shown};
  return shown;
}

double class_1_tolerance(double kelvin) {
  return std::max(1.5, 0.004 * std::abs(kelvin - 273.15));
}

}  // namespace ampstair::instruments
