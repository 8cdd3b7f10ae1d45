// SPDX-License-Identifier: MIT
#include "checks/sentences.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "checks/amounts.hpp"

namespace ampstair::post::checks {

std::string rest_word(const StepSettling& step) {
  switch (rest_of(step)) {
    case Rest::settled:
      return "settled";
    case Rest::rising:
      return "rising";
    case Rest::falling:
      return "falling";
    case Rest::flat_but_rising:
      return "flat but rising";
    case Rest::flat_but_falling:
      return "flat but falling";
    case Rest::rising_faster:
      return "rising ever faster";
    case Rest::no_steady_state:
      return "no steady state";
    case Rest::cannot_say:
      break;
  }
  return "cannot say";
}

std::string rest_remark(const StepSettling& step) {
  constexpr double finest = 0.1;  // K
  if (step.none) {
    return fmt::format("'{}' rises until something changes: it settles at no current above {} A",
                       step.none->piece, figures(step.none->above, 0));
  }
  if (!step.whole) {
    return "the results end before";
  }
  if (!step.to_come) {
    return rest_of(step) == Rest::cannot_say ? "it does not close in evenly" : "no end in sight";
  }
  const double rest = std::abs(*step.to_come);
  return rest < finest ? "less than 0.1 K still to come" : figures(rest, 1) + " K still to come";
}

std::string document_of(watch::SettlingRule rule) {
  switch (rule) {
    case watch::SettlingRule::one_kelvin_in_an_hour:
      return "IEC 60598-1";
    case watch::SettlingRule::two_kelvin_in_an_hour:
      return "IEC 60034-1";
    case watch::SettlingRule::one_kelvin_in_readings:
      return "IEC 61810-7";
    case watch::SettlingRule::no_change_by_tenths:
      break;
  }
  return "UL 1278";
}

std::string meaning_of(watch::SettlingRule rule) {
  switch (rule) {
    case watch::SettlingRule::one_kelvin_in_an_hour:
      return "less than 1 K in 1 h";
    case watch::SettlingRule::two_kelvin_in_an_hour:
      return "no more than 2 K in 1 h";
    case watch::SettlingRule::one_kelvin_in_readings:
      return "three readings 5 min apart within 1 K";
    case watch::SettlingRule::no_change_by_tenths:
      break;
  }
  return "three readings a tenth of the time apart, no change";
}

std::string device_text(const Device& device) {
  return fmt::format("{}, {} A, limits from: {}", device.kind, figures(device.rating, 1),
                     device.source.empty() ? "no source given" : device.source);
}

std::string earliest_text(const Device& device, const OpeningEnvelope& opening) {
  if (!device.must_hold) {
    return "no holding limit given: it may open at any time";
  }
  return opening.earliest ? "before, the current was within what it has to carry for good"
                          : "the current stays within what it has to carry for good";
}

std::string latest_text(const OpeningEnvelope& opening) {
  return opening.latest ? "a device that meets the stated limits must have opened by then"
                        : "no stated opening time runs out: it need not open at all";
}

double slack_of(const Crossing& crossing) {
  constexpr double finest_clock = 30.0;  // s, crossings are printed to a tenth of a minute
  return std::max(crossing.error.value_or(finest_clock), finest_clock);
}

std::string device_sentence(const OpeningEnvelope& opening, const Crossing& crossing) {
  const std::string apart =
      opening.latest ? span_text(std::abs(crossing.time - *opening.latest)) : std::string();
  switch (order(opening, crossing.time, slack_of(crossing))) {
    case Order::device_first:
      return fmt::format("a device within the stated limits opens first, by {}", apart);
    case Order::cannot_have:
      return "a device within the stated limits had no reason to open before";
    case Order::cannot_say:
      return fmt::format("cannot say: the two are {} apart, closer than they are known", apart);
    case Order::not_required:
      break;
  }
  return opening.latest ? fmt::format("not required to have opened: {} before it has to", apart)
                        : std::string("not required to have opened by any stated time");
}

}  // namespace ampstair::post::checks
