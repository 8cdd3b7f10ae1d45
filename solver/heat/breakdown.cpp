// SPDX-License-Identifier: MIT
#include "heat/breakdown.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ampstair::heat {

double rate_constant(const materials::Breakdown& breakdown, double kelvin) {
  return std::min(fastest_rate,
                  breakdown.frequency * std::exp(-breakdown.energy / (gas_constant * kelvin)));
}

double temperature_of_rate(const materials::Breakdown& breakdown, double rate) {
  return breakdown.frequency > rate
             ? breakdown.energy / (gas_constant * std::log(breakdown.frequency / rate))
             : std::numeric_limits<double>::infinity();
}

}  // namespace ampstair::heat
