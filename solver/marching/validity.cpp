// SPDX-License-Identifier: MIT
#include "marching/validity.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <limits>

#include "marching/events.hpp"

namespace ampstair::marching {

namespace {

std::vector<watch::Item> items_of(const std::vector<ValidityLimit>& limits) {
  std::vector<watch::Item> items;
  for (const ValidityLimit& limit : limits) {
    watch::Item& item = items.emplace_back();
    item.part = limit.part;
    item.limit = limit.kelvin;
  }
  return items;
}

}  // namespace

Validity::Validity(const HeatNetwork& network, const View& view, const scenario::Scenario& scenario)
    : network_(network),
      limits_(validity_limits(network.grid(), scenario)),
      levels_(network, view, scenario.wire, items_of(limits_)),
      coming_(flags_of_surroundings(network.grid(), scenario)),
      fusing_(fusing_limit(scenario)),
      warmest_around_(warmest_around(network.grid(), scenario)) {
  const auto& grid = network.grid();
  hot_cells_.push_back({0, grid.stations()});
  for (const auto& body : grid.bodies) {
    Stretch& last = hot_cells_.back();
    if (body.first_cell == last.first + last.count) {
      last.count += body.cells;
    } else {
      hot_cells_.push_back({body.first_cell, body.cells});
    }
  }
  temperature_.assign(grid.cells, 0.0);
  passed_.assign(levels_.levels().size(), false);
}

const std::vector<Flag>& Validity::begin_phase(const Stepper& stepper, double time) {
  begin(0.0);
  read(stepper, 0.0);
  while (told_ < coming_.size() && coming_[told_].time <= time) {
    flags_.push_back(coming_[told_++]);
  }
  check_current(time, 0.0);
  return flags_;
}

const std::vector<Flag>& Validity::look(const Stepper& stepper, double time, double length,
                                        double reach) {
  begin(reach);
  read(stepper, reach);
  find_levels(stepper, length, reach);
  for (const Candidate& found : candidates_) {
    if (found.theta <= stops_at_) {
      tell(stepper, time + found.theta * length, found);
    }
  }
  if (!stops_) {
    read(stepper, reach);
    check_current(time + reach * length, reach);
  }
  return flags_;
}

void Validity::begin(double reach) {
  flags_.clear();
  candidates_.clear();
  stops_ = false;
  stops_at_ = reach;
}

/// Temperatures of the cells that may be the hottest, and the hottest of them.
void Validity::read(const Stepper& stepper, double theta) {
  stepper.temperatures_at(theta, hot_cells_, temperature_);
  if (network_.reactions().size() > 0) {  // heat is made anywhere
    hottest_ = std::numeric_limits<double>::infinity();
    return;
  }
  hottest_ = warmest_around_;
  for (const Stretch& stretch : hot_cells_) {
    const auto begin = temperature_.begin() + static_cast<std::ptrdiff_t>(stretch.first);
    const auto end = begin + static_cast<std::ptrdiff_t>(stretch.count);
    hottest_ = std::max(hottest_, *std::max_element(begin, end));
  }
}

Levels::Hottest Validity::hottest(const Stepper& stepper, std::size_t part, double theta) {
  stepper.temperatures_at(theta, levels_.cells(part), temperature_);
  return levels_.hottest(part, temperature_);
}

/// Limits passed in the step, by the time at which they are.
void Validity::find_levels(const Stepper& stepper, double length, double reach) {
  for (std::size_t k = 0; k < passed_.size(); ++k) {
    const auto& level = levels_.levels()[k];
    if (passed_[k] || hottest_ <= level.kelvin) {
      continue;
    }
    const double at_reach = hottest(stepper, level.part, reach).temperature;
    if (at_reach > level.kelvin) {
      candidates_.push_back({locate(stepper, level, length, reach, at_reach), k});
    }
  }
  std::sort(candidates_.begin(), candidates_.end(),
            [](const Candidate& a, const Candidate& b) { return a.theta < b.theta; });
}

double Validity::locate(const Stepper& stepper, const Levels::Level& level, double length,
                        double reach, double at_reach) {
  const auto over = [&](double theta) {
    return hottest(stepper, level.part, theta).temperature - level.kelvin;
  };
  const double at_begin = over(0.0);
  if (at_begin >= 0.0) {
    return 0.0;
  }
  const auto close = [&](double a, double b) { return (b - a) * length < located_within; };
  std::uintmax_t most = 60;
  return boost::math::tools::toms748_solve(over, 0.0, reach, at_begin, at_reach - level.kelvin,
                                           close, most)
      .second;
}

void Validity::tell(const Stepper& stepper, double time, const Candidate& found) {
  const auto& level = levels_.levels()[found.level];
  const ValidityLimit& limit = limits_[level.item];
  passed_[found.level] = true;
  const auto place = hottest(stepper, level.part, found.theta);
  read(stepper, found.theta);
  flags_.push_back({limit.code, limit.text, limit.severity, limit.part, place.position, time,
                    network_.electrical(temperature_, time).current, place.temperature,
                    limit.kelvin, "K"});
  if (limit.severity == Flag::Severity::stop) {
    stops_ = true;
    stops_at_ = found.theta;
  }
}

/// At the temperatures read last. Where the drive begins and at the ends of steps: a held current
/// is at its greatest where it begins.
void Validity::check_current(double time, double theta) {
  const double current = network_.electrical(temperature_, time).current;
  if (fusing_passed_ || current <= fusing_.current) {
    return;
  }
  fusing_passed_ = true;
  flags_.push_back({"V320", fusing_.text, fusing_.severity, "conductor",
                    std::numeric_limits<double>::quiet_NaN(), time, current, current,
                    fusing_.current, "A"});
  if (fusing_.severity == Flag::Severity::stop) {
    stops_ = true;
    stops_at_ = theta;
  }
}

}  // namespace ampstair::marching
