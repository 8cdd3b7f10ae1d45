// SPDX-License-Identifier: MIT
#include "checks/step_settling.hpp"

#include <algorithm>
#include <cmath>

#include "checks/zero_celsius.hpp"

namespace ampstair::post::checks {

namespace {

constexpr std::size_t rows_at_once = 64;
constexpr double at_rest = 0.02;        // K, of a difference that rows resolve
constexpr double same_moment = 0.5;     // s
constexpr double still_closing = 0.98;  // ratio of differences above which no end is in sight
constexpr double speeds_up = 1.02;      // and above which it moves away from any

/// The hottest conductor of a step, row by row.
struct Curve {
  std::vector<double> time;    // s
  std::vector<double> kelvin;  // K

  [[nodiscard]] double at(double when) const {
    const auto after = std::upper_bound(time.begin(), time.end(), when);
    if (after == time.begin()) {
      return kelvin.front();
    }
    if (after == time.end()) {
      return kelvin.back();
    }
    const auto i = static_cast<std::size_t>(after - time.begin());
    return std::lerp(kelvin[i - 1], kelvin[i], (when - time[i - 1]) / (time[i] - time[i - 1]));
  }
};

Curve hottest_conductor(const Histories& histories) {
  Curve curve;
  curve.time = histories.times();
  for (std::size_t first = 0; first < curve.time.size(); first += rows_at_once) {
    const std::size_t count = std::min(rows_at_once, curve.time.size() - first);
    const auto block = histories.rows("conductor_temperature", first, count);
    const std::size_t places = block.size() / count;
    for (std::size_t r = 0; r < count; ++r) {
      const auto row = block.begin() + static_cast<std::ptrdiff_t>(r * places);
      curve.kelvin.push_back(celsius_zero +
                             *std::max_element(row, row + static_cast<std::ptrdiff_t>(places)));
    }
  }
  return curve;
}

/// The rows of one step; of two at its begin the later, which belongs to it.
Curve part_of(const Curve& whole, double begin, double end) {
  const auto first = std::upper_bound(whole.time.begin(), whole.time.end(), begin) - 1;
  const auto last = std::lower_bound(whole.time.begin(), whole.time.end(), end);
  Curve part;
  for (auto t = first; t != whole.time.end() && t <= last; ++t) {
    part.time.push_back(*t);
    part.kelvin.push_back(whole.kelvin[static_cast<std::size_t>(t - whole.time.begin())]);
  }
  return part;
}

/// s, the last moment of a step up to which the conductor's results are to be used.
std::optional<double> last_usable(const StepFinding& step) {
  for (const auto& part : step.parts) {
    if (part.part == "conductor") {
      return part.at_end.time;
    }
  }
  return std::nullopt;
}

/// The buried piece with the least current above which it has no steady state, if the step holds
/// more: taken between cold ends, which is the most that it could settle at.
std::optional<NoSteadyState> without_steady_state(const Histories& histories,
                                                  const StepFinding& step) {
  if (!histories.has("stability/piece") || step.kind != "hold_current" || !step.got_least) {
    return std::nullopt;
  }
  const auto pieces = histories.texts("stability", "piece");
  const auto limits = histories.numbers("stability", "held_ends");
  const auto least = std::min_element(limits.begin(), limits.end());
  if (least == limits.end() || *step.got_least <= *least) {
    return std::nullopt;
  }
  return NoSteadyState{pieces.at(static_cast<std::size_t>(least - limits.begin())), *least};
}

RuleInStep follow(watch::SettlingRule rule, const Curve& curve,
                  const std::optional<double>& final_temperature) {
  watch::SettlingWatch settling(rule);
  settling.restart(curve.time.front());
  for (std::size_t i = 1; i < curve.time.size(); ++i) {
    const double length = curve.time[i] - curve.time[i - 1];
    if (length > 0.0) {
      const double from = curve.kelvin[i - 1];
      const double to = curve.kelvin[i];
      settling.add({curve.time[i - 1],
                    length,
                    {from, std::lerp(from, to, 1.0 / 3.0), std::lerp(from, to, 2.0 / 3.0), to}});
    }
  }
  RuleInStep found;
  found.rule = rule;
  if (const auto when = settling.settled()) {
    found.after = *when - curve.time.front();
    if (final_temperature) {
      found.to_come = *final_temperature - curve.at(*when);
    }
  }
  return found;
}

}  // namespace

std::optional<double> heading_for(double first, double second, double third) {
  const double before = second - first;
  const double last = third - second;
  if (std::abs(last) < at_rest && std::abs(before) < at_rest) {
    return third;
  }
  const double ratio = last / before;
  if (!(ratio > 0.0 && ratio < still_closing)) {
    return std::nullopt;
  }
  return third + last * ratio / (1.0 - ratio);
}

Rest rest_of(const StepSettling& step) {
  if (step.none) {
    return Rest::no_steady_state;
  }
  if (step.ever_faster) {
    return Rest::rising_faster;
  }
  const bool called_settled = std::any_of(step.rules.begin(), step.rules.end(),
                                          [](const auto& rule) { return rule.after.has_value(); });
  if (!step.whole || (!step.to_come && called_settled)) {
    return Rest::cannot_say;
  }
  if (step.to_come && std::abs(*step.to_come) <= tells_as_rising) {
    return Rest::settled;
  }
  const bool up = step.to_come.value_or(step.last_change) > 0.0;
  return called_settled ? (up ? Rest::flat_but_rising : Rest::flat_but_falling)
                        : (up ? Rest::rising : Rest::falling);
}

std::vector<StepSettling> settling(const Histories& histories, const Findings& findings) {
  std::vector<StepSettling> all;
  if (!histories.has("conductor_temperature")) {
    return all;
  }
  const Curve whole = hottest_conductor(histories);
  for (const auto& step : findings.steps) {
    if (!step.reached || step.kind == "rest") {
      continue;
    }
    const auto last = last_usable(step);
    if (!last) {
      continue;
    }
    const Curve curve = part_of(whole, step.begin, *last);
    if (curve.time.size() < 4) {
      continue;
    }
    StepSettling found;
    found.number = step.number;
    // The last half: what is fast has died away, what is slow still shows.
    const double end = curve.time.back();
    const double quarter = 0.25 * (end - curve.time.front());
    found.whole = step.complete && *last > step.end - same_moment;
    found.last_change = curve.at(end) - curve.at(end - quarter);
    const double before = curve.at(end - quarter) - curve.at(end - 2.0 * quarter);
    found.ever_faster = found.whole && (step.course.empty() || step.course == "held") &&
                        before > at_rest && found.last_change > speeds_up * before;
    found.none = without_steady_state(histories, step);
    if (found.whole) {
      found.final_temperature =
          heading_for(curve.at(end - 2.0 * quarter), curve.at(end - quarter), curve.at(end));
    }
    if (found.final_temperature) {
      found.to_come = *found.final_temperature - curve.kelvin.back();
    }
    for (std::size_t r = 0; r < all_rules.size(); ++r) {
      found.rules[r] = follow(all_rules[r], curve, found.final_temperature);
    }
    all.push_back(found);
  }
  return all;
}

}  // namespace ampstair::post::checks
