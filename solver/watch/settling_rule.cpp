// SPDX-License-Identifier: MIT
#include "watch/settling_rule.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ampstair::watch {

namespace {

constexpr double reading_apart = 300.0;    // s
constexpr double tenth = 0.1;              // of the time elapsed
constexpr double no_change = 1.0;          // K
constexpr double two_kelvin = 2.0 + 1e-9;  // K, "no more than"

constexpr std::array<std::pair<SettlingRule, std::string_view>, 4> words = {
    {{SettlingRule::one_kelvin_in_an_hour, "settled 1 K/h"},
     {SettlingRule::two_kelvin_in_an_hour, "settled 2 K/h"},
     {SettlingRule::one_kelvin_in_readings, "settled 1 K in three readings"},
     {SettlingRule::no_change_by_tenths, "settled by tenths"}}};

bool by_readings(SettlingRule rule) {
  return rule == SettlingRule::one_kelvin_in_readings || rule == SettlingRule::no_change_by_tenths;
}

}  // namespace

std::string_view word_of(SettlingRule rule) {
  return std::find_if(words.begin(), words.end(),
                      [&](const auto& one) { return one.first == rule; })
      ->second;
}

std::optional<SettlingRule> rule_called(std::string_view word) {
  for (const auto& [rule, called] : words) {
    if (called == word) {
      return rule;
    }
  }
  return std::nullopt;
}

void SettlingWatch::restart(double time) {
  in_an_hour_ = SettledByChange(
      rule_ == SettlingRule::two_kelvin_in_an_hour ? two_kelvin : settled_change, settled_span);
  begin_ = next_reading_ = time;
  readings_ = 0;
  settled_.reset();
}

void SettlingWatch::add(const CubicPiece& piece) {
  if (settled_) {
    return;
  }
  if (!by_readings(rule_)) {
    in_an_hour_.add(piece);
    settled_ = in_an_hour_.since();
    return;
  }
  while (!settled_ && next_reading_ <= piece.end()) {
    read(next_reading_, piece.at(next_reading_));
    const double elapsed = next_reading_ - begin_;
    next_reading_ += rule_ == SettlingRule::no_change_by_tenths
                         ? std::max(reading_apart, tenth * elapsed)
                         : reading_apart;
  }
}

void SettlingWatch::read(double time, double value) {
  last_ = {value, last_[0], last_[1]};
  if (++readings_ < 3) {
    return;
  }
  const double newer = std::abs(last_[0] - last_[1]);
  const double older = std::abs(last_[1] - last_[2]);
  double change = std::max(newer, older);
  if (rule_ == SettlingRule::one_kelvin_in_readings) {
    change = std::max(change, std::abs(last_[0] - last_[2]));
  }
  if (change < no_change) {
    settled_ = time;
  }
}

}  // namespace ampstair::watch
