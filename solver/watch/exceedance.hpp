// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

namespace ampstair::watch {

/// The greatest value of one place's series and the first moment it was reached.
class Peak {
 public:
  void add(double time, double value) {
    if (!(value <= value_)) {
      take(time, value);
    }
  }
  [[nodiscard]] bool seen() const { return seen_; }
  [[nodiscard]] double value() const { return value_; }  ///< as added
  [[nodiscard]] double time() const { return time_; }    ///< s

 private:
  void take(double time, double value);

  double value_ = -1e300;
  double time_ = 0.0;
  bool seen_ = false;
};

/// How one place's series stands against one level. The series is linear between the moments
/// added; above means strictly greater. A value that is not a number ends a stretch above and
/// nothing is assumed until the next number.
class Exceedance {
 public:
  /// @param level in the unit of the values
  /// @param persistence s that a stretch above must last without a break
  Exceedance(double level, double persistence);

  /// @param time s, not before the one added last
  void add(double time, double value);

  /// s, when the value first rose above the level, however briefly.
  [[nodiscard]] std::optional<double> first_above() const { return first_above_; }
  /// s, when a stretch above had first lasted for the persistence: the crossing.
  [[nodiscard]] std::optional<double> crossed() const { return crossed_; }
  /// s, when the stretch that made the crossing began.
  [[nodiscard]] std::optional<double> crossing_rose() const { return crossing_rose_; }
  /// s, the longest stretch above without a break.
  [[nodiscard]] double longest() const { return longest_; }
  /// s, the last moment above.
  [[nodiscard]] std::optional<double> last_above() const { return last_above_; }

 private:
  void rise(double when);
  void extend(double until);
  [[nodiscard]] double meets_level(double time, double value) const;

  double level_;
  double persistence_;
  double last_time_ = 0.0;
  double last_value_ = 0.0;
  double rose_ = 0.0;
  double longest_ = 0.0;
  bool seen_ = false;
  bool above_ = false;
  std::optional<double> first_above_;
  std::optional<double> crossed_;
  std::optional<double> crossing_rose_;
  std::optional<double> last_above_;
};

}  // namespace ampstair::watch
