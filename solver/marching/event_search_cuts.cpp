// SPDX-License-Identifier: MIT
// What makes a time step end before its length is up.
#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <limits>

#include "marching/event_search.hpp"

namespace ampstair::marching {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

// A supply that hovers at its ceiling would cut step after step; the kink is then too weak to
// matter.
constexpr double ceiling_rest = 1.0;  // s

// A step ends where the conductor melts or the supply meets its ceiling, so it pays to be exact.
constexpr double cut_within = 1e-9;  // s

// What hovers at the ceiling shall not pass it over and over by round-off.
constexpr double ceiling_slack_share = 1e-10;  // of the voltage limit, or at a power limit of volts

}  // namespace

void EventSearch::find_reach() {
  reach_ = 1.0;
  cut_ = false;
  limited_before_ = limited_;
  find_melting();
  find_covering();
  find_ceiling();
}

/// Ends the time step, and with it the step of the staircase, where its rule holds first.
void EventSearch::search_until() {
  until_->add({time_, reach_ * length_, conductor_});
  if (!until_->settled()) {
    return;
  }
  const double theta = std::min((*until_->settled() - time_) / length_, reach_);
  if (theta < reach_) {
    limited_ = limited_before_;  // what would have come after is not reached
  }
  end_with(std::max(theta, 0.0), Event::Kind::step_settled);
  sample();
}

void EventSearch::end_with(double theta, Event::Kind kind) {
  reach_ = theta;
  cut_ = true;
  read(theta);
  end_ = event_here(kind, theta);
}

void EventSearch::find_melting() {
  if (network_.parted()) {
    return;
  }
  const double level = molten_ ? network_.melting_ends() : network_.melting_begins();
  if (level == infinity || stepper_.hottest_conductor_at(1.0) < level) {
    return;
  }
  const auto over = [&](double theta) { return stepper_.hottest_conductor_at(theta) - level; };
  end_with(locate(over, 0.0, over(0.0), 1.0, over(1.0), cut_within),
           molten_ ? Event::Kind::conductor_parts : Event::Kind::conductor_melts);
}

void EventSearch::find_covering() {
  if (covering_.idle()) {
    return;
  }
  const auto beyond = [&](double theta) {
    network_.set_time(time_ + theta * length_);  // surfaces follow surroundings in motion
    return covering_.beyond(theta);
  };
  const double at_end = beyond(reach_);
  if (at_end < 0.0) {
    return;
  }
  const double theta = locate(beyond, 0.0, beyond(0.0), reach_, at_end, cut_within);
  network_.set_time(time_ + theta * length_);
  going_ = covering_.going(theta);
  end_with(theta, Event::Kind::covering_gone);
  end_.temperature = covering_.temperature();
  end_.position = network_.grid().station_centre[covering_.station()];
}

void EventSearch::find_ceiling() {
  if (!current_may_fall_) {
    return;
  }
  const double slack = (limited_ ? 1.0 : -1.0) * ceiling_slack_share * ceiling_scale_;
  const auto over = [&](double theta) {
    read(theta);
    return beyond_ceiling() + slack;
  };
  const double over_at_end = over(reach_);
  const double at_end = over_at_end - slack;
  if ((over_at_end > 0.0) == limited_) {
    ceiling_ = at_end;
    return;
  }
  const double theta = locate(over, 0.0, ceiling_ + slack, reach_, over_at_end, cut_within);
  if (theta <= 0.0 || time_ + theta * length_ < ceiling_time_ + ceiling_rest) {
    ceiling_ = at_end;
    limited_ = !limited_;
    return;
  }
  limited_ = !limited_;
  end_with(theta, limited_ ? Event::Kind::ceiling_met : Event::Kind::ceiling_left);
  ceiling_ = beyond_ceiling();
  ceiling_time_ = end_.time;
}

double EventSearch::locate(const std::function<double(double)>& value, double from,
                           double from_value, double to, double to_value, double within) const {
  if (from_value == 0.0 || from_value * to_value > 0.0) {
    return from;
  }
  const auto close = [&](double a, double b) { return (b - a) * length_ < within; };
  std::uintmax_t most = 60;
  const auto bracket =
      boost::math::tools::toms748_solve(value, from, to, from_value, to_value, close, most);
  return bracket.second;
}

}  // namespace ampstair::marching
