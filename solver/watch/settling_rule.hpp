// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "watch/settling.hpp"

namespace ampstair::watch {

/// Published rules by which a warming test counts as settled. What is read is one series, the
/// hottest conductor temperature; a rule says nothing about what is still to come.
enum class SettlingRule {
  one_kelvin_in_an_hour,   ///< less than 1 K in 1 h: IEC 60598-1 12.4.1, BS 1363-1 (seen)
  two_kelvin_in_an_hour,   ///< no more than 2 K in 1 h: IEC 60034-1 (seen)
  one_kelvin_in_readings,  ///< less than 1 K between any two of three readings 5 min apart:
                           ///< IEC 61810-7 (seen)
  no_change_by_tenths      ///< three successive readings, a tenth of the time elapsed apart and not
                           ///< less than 5 min, show no change: UL 1278 39.1.8 (seen); here none of
                           ///< 1 K from one reading to the next
};

/// The word a run sheet and a record have for a rule: "settled 1 K/h", ...
std::string_view word_of(SettlingRule rule);
/// The rule a word stands for.
std::optional<SettlingRule> rule_called(std::string_view word);

/// Follows a series from the begin of a step of the staircase and tells when a rule first holds.
class SettlingWatch {
 public:
  explicit SettlingWatch(SettlingRule rule) : rule_(rule) {}

  /// The series begins anew at a time [s].
  void restart(double time);
  /// @param piece begins where the one before ended
  void add(const CubicPiece& piece);
  /// s, when the rule first held; readings count when the last of the three is taken.
  [[nodiscard]] std::optional<double> settled() const { return settled_; }

 private:
  void read(double time, double value);

  SettlingRule rule_;
  SettledByChange in_an_hour_{settled_change, settled_span};
  double begin_ = 0.0;         // s
  double next_reading_ = 0.0;  // s
  int readings_ = 0;
  std::array<double, 3> last_{};  // the latest readings, the newest first
  std::optional<double> settled_;
};

}  // namespace ampstair::watch
