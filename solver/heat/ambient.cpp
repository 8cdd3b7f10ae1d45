// SPDX-License-Identifier: MIT
#include "heat/ambient.hpp"

#include <algorithm>
#include <vector>

namespace ampstair::heat {

namespace {

template <class Step>
const Step* last_begun(const std::vector<Step>& history, double time) {
  const Step* step = &history.front();
  for (const Step& next : history) {
    if (next.from_time <= time) {
      step = &next;
    }
  }
  return step;
}

}  // namespace

bool Prevailing::moves() const {
  return air->temperature_rate != 0.0 || air->speed_rate != 0.0 ||
         (walls != nullptr && walls->temperature_rate != 0.0);
}

Ambient Prevailing::at(double time) const {
  const double into = time - air->from_time;
  Ambient ambient;
  ambient.air = air->temperature + air->temperature_rate * into;
  ambient.speed = std::max(0.0, air->speed + air->speed_rate * into);
  ambient.walls = walls == nullptr
                      ? ambient.air
                      : walls->temperature + walls->temperature_rate * (time - walls->from_time);
  return ambient;
}

Prevailing prevailing_from(const scenario::Surroundings& surroundings, double time) {
  return {last_begun(surroundings.air, time),
          surroundings.walls.empty() ? nullptr : last_begun(surroundings.walls, time)};
}

}  // namespace ampstair::heat
