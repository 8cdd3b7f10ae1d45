// SPDX-License-Identifier: MIT
#include "marching/event_search.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ampstair::marching {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

// What rests on a level shall not pass it over and over by round-off.
constexpr double level_slack = 1e-7;  // K

// A part whose levels are farther than this from where a step begins and ends, and than this many
// times its change, is not looked at inside the step: the steps are too short for such a turn.
constexpr double turn_margin = 10.0;  // K
constexpr double turn_share = 3.0;

}  // namespace

EventSearch::EventSearch(const scenario::Scenario& scenario, HeatNetwork& network,
                         const Stepper& stepper, Levels* levels)
    : scenario_(scenario),
      network_(network),
      stepper_(stepper),
      levels_(levels),
      covering_(scenario, network, stepper) {
  loop_cells_.push_back({0, network.grid().stations()});
  for (const auto& body : network.grid().bodies) {
    for (std::size_t i = 0; i < body.cells; ++i) {
      if (body.metres_per_area[i] > 0.0) {
        loop_cells_.push_back({body.first_cell + i, 1});
      }
    }
  }
  if (levels != nullptr) {
    of_part_.resize(levels->parts());
    above_.assign(levels->levels().size(), false);
  }
  temperature_.assign(network.grid().cells, scenario.start_temperature);
}

void EventSearch::read(double theta) {
  read_time_ = time_ + theta * length_;
  stepper_.temperatures_at(theta, loop_cells_, temperature_);
  ++looks_;
}

Levels::Hottest EventSearch::hottest(std::size_t part, double theta) {
  network_.set_time(time_ + theta * length_);  // surfaces follow surroundings in motion
  stepper_.temperatures_at(theta, levels_->cells(part), temperature_);
  ++looks_;
  return levels_->hottest(part, temperature_);
}

Levels::Hottest EventSearch::hottest_conductor() const {
  const auto& centre = network_.grid().station_centre;
  const auto end = temperature_.begin() + static_cast<std::ptrdiff_t>(centre.size());
  const auto hottest = std::max_element(temperature_.begin(), end);
  return {*hottest, centre[static_cast<std::size_t>(hottest - temperature_.begin())]};
}

double EventSearch::beyond_ceiling() const {
  return network_.electrical(temperature_, read_time_).beyond_limits;
}

/// Whether the supply may give less than asked in a step of this kind. A fed voltage above the
/// voltage limit is cut from begin to end and passes nothing.
bool EventSearch::may_meet_ceiling(scenario::Step::Kind kind) const {
  const auto& supply = scenario_.supply;
  return !network_.parted() && kind != scenario::Step::Kind::rest &&
         (supply.power_limit ||
          (supply.voltage_limit && kind == scenario::Step::Kind::hold_current));
}

Event EventSearch::event_here(Event::Kind kind, double theta) const {
  const auto hottest = hottest_conductor();
  Event event;
  event.kind = kind;
  event.time = time_ + theta * length_;
  event.step = step_;
  event.temperature = hottest.temperature;
  event.position = hottest.position;
  event.current = network_.electrical(temperature_, read_time_).current;
  return event;
}

// ---- where a phase begins -----------------------------------------------------------------------

const std::vector<EventSearch::Found>& EventSearch::begin_phase(double time, std::size_t step) {
  found_.clear();
  time_ = time;
  length_ = 0.0;
  if (!begun_ || step != step_) {
    by_rate_.restart();
    by_hour_.restart();
    until_.reset();
    if (scenario_.staircase[step].until) {
      until_.emplace(*scenario_.staircase[step].until).restart(time);
    }
  }
  step_ = step;
  read(0.0);
  conductor_.back() = hottest_conductor().temperature;
  current_may_fall_ = may_meet_ceiling(scenario_.staircase[step].kind);
  ceiling_ = current_may_fall_ ? beyond_ceiling() : -infinity;
  ceiling_scale_ = scenario_.supply.voltage_limit.value_or(
      network_.electrical(temperature_, read_time_).supply_voltage);
  ceiling_time_ = -infinity;
  if (network_.parted()) {
    limited_ = false;  // nothing is asked of the supply any more, which is told as the parting
  } else if ((ceiling_ > 0.0) != limited_) {
    limited_ = !limited_;
    found_.push_back(
        {0.0, false,
         event_here(limited_ ? Event::Kind::ceiling_met : Event::Kind::ceiling_left, 0.0)});
  }
  for (std::size_t p = 0; p < of_part_.size(); ++p) {
    of_part_[p].back() = hottest(p, 0.0).temperature;
  }
  for (std::size_t l = 0; l < above_.size(); ++l) {
    if ((over_level(l, of_part_[levels_->levels()[l].part].back()) > 0.0) != above_[l]) {
      above_[l] = !above_[l];
      found_.push_back({0.0, begun_, passing(l, 0.0)});
    }
  }
  begun_ = true;
  return found_;
}

void EventSearch::parted() {
  current_may_fall_ = false;
  limited_ = false;
}

// ---- inside a step ------------------------------------------------------------------------------

const std::vector<EventSearch::Found>& EventSearch::look(double time, double length) {
  found_.clear();
  time_ = time;
  length_ = length;
  find_reach();
  carry_over();
  sample();
  if (reach_ > 0.0) {  // else the series does not go on
    if (until_) {
      search_until();
    }
    search_settling();
  }
  molten_ = molten_ || (cut_ && end_.kind == Event::Kind::conductor_melts);
  for (std::size_t l = 0; l < above_.size(); ++l) {
    search_level(l);
  }
  std::sort(found_.begin(), found_.end(),
            [](const Found& a, const Found& b) { return a.theta < b.theta; });
  return found_;
}

/// What ended the step before begins this one.
void EventSearch::carry_over() {
  conductor_.front() = conductor_.back();
  for (Values& values : of_part_) {
    values.front() = values.back();
  }
}

void EventSearch::sample() {
  for (std::size_t k = 1; k < samples; ++k) {
    read(reach_ * static_cast<double>(k) / (samples - 1));
    conductor_[k] = hottest_conductor().temperature;
  }
  for (std::size_t p = 0; p < of_part_.size(); ++p) {
    sample_part(p);
  }
}

void EventSearch::sample_part(std::size_t part) {
  Values& values = of_part_[part];
  values.back() = hottest(part, reach_).temperature;
  const bool inside = near_a_level(part);
  for (std::size_t k = 1; k + 1 < samples; ++k) {
    const double theta = static_cast<double>(k) / (samples - 1);
    values[k] = inside ? hottest(part, reach_ * theta).temperature
                       : std::lerp(values.front(), values.back(), theta);
  }
}

/// Whether the part could come to a level and back inside the step.
bool EventSearch::near_a_level(std::size_t part) const {
  const double low = std::min(of_part_[part].front(), of_part_[part].back());
  const double high = std::max(of_part_[part].front(), of_part_[part].back());
  const double margin = turn_margin + turn_share * (high - low);
  return std::any_of(levels_->levels().begin(), levels_->levels().end(), [&](const auto& level) {
    return level.part == part && level.kelvin > low - margin && level.kelvin < high + margin;
  });
}

void EventSearch::search_level(std::size_t index) {
  const auto& level = levels_->levels()[index];
  const Values& values = of_part_[level.part];
  const watch::CubicPiece piece{time_, reach_ * length_, values};
  const auto turns = piece.where_slope_is(0.0);
  for (std::size_t k = 1; k < samples; ++k) {
    double from = static_cast<double>(k - 1) / (samples - 1);
    double from_kelvin = values[k - 1];
    const double to = static_cast<double>(k) / (samples - 1);
    for (std::size_t t = 0; t < turns.count; ++t) {
      const double turn = turns.part[t];
      const double there = piece.at(time_ + turn * piece.length);
      if (turn > from && turn < to && (over_level(index, there) > 0.0) != above_[index]) {
        const double kelvin = hottest(level.part, reach_ * turn).temperature;
        pass(index, from, from_kelvin, turn, kelvin);
        from = turn;
        from_kelvin = kelvin;
      }
    }
    pass(index, from, from_kelvin, to, values[k]);
  }
}

double EventSearch::over_level(std::size_t index, double kelvin) const {
  const double slack = above_[index] ? level_slack : -level_slack;
  return kelvin - levels_->levels()[index].kelvin + slack;
}

/// Tells that a level is passed between two readings, if it is. Parts count up to reach_ here.
void EventSearch::pass(std::size_t index, double from, double from_kelvin, double to,
                       double to_kelvin) {
  const double over_from = over_level(index, from_kelvin);
  const double over_to = over_level(index, to_kelvin);
  if ((over_to > 0.0) == above_[index]) {
    return;
  }
  const auto over = [&](double theta) {
    return over_level(index, hottest(levels_->levels()[index].part, theta).temperature);
  };
  const double theta =
      locate(over, reach_ * from, over_from, reach_ * to, over_to, 0.5 * located_within);
  above_[index] = !above_[index];
  found_.push_back({theta, true, passing(index, theta)});
}

/// The event that a level has just been passed, whichever way above_ says.
Event EventSearch::passing(std::size_t index, double theta) {
  const auto& level = levels_->levels()[index];
  read(theta);
  Event event =
      event_here(above_[index] ? Event::Kind::rises_above : Event::Kind::falls_below, theta);
  const auto place = hottest(level.part, theta);
  event.item = level.item;
  event.bound = level.bound;
  event.temperature = place.temperature;
  event.position = place.position;
  return event;
}

void EventSearch::search_settling() {
  const watch::CubicPiece piece{time_, reach_ * length_, conductor_};
  by_rate_.add(piece);
  by_hour_.add(piece);
  keep_settled(Event::Kind::settled_by_rate, by_rate_.since(), rate_event_);
  keep_settled(Event::Kind::settled_by_hour, by_hour_.since(), hour_event_);
}

void EventSearch::keep_settled(Event::Kind kind, const std::optional<double>& since, Event& event) {
  if (since && *since >= time_) {  // of this time step
    const double theta = std::min((*since - time_) / length_, reach_);
    read(theta);
    event = event_here(kind, theta);
  }
}

const std::vector<EventSearch::Found>& EventSearch::end_step() {
  found_.clear();
  if (by_rate_.since()) {
    found_.push_back({0.0, false, rate_event_});
  }
  if (by_hour_.since()) {
    found_.push_back({0.0, false, hour_event_});
  }
  return found_;
}

}  // namespace ampstair::marching
