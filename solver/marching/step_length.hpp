// SPDX-License-Identifier: MIT
#pragma once

namespace ampstair::marching {

/// How long the next time step should be, from the estimated errors of those before; an error is a
/// part of the one allowed, and the next step should come near 0.73 of it.
class StepLength {
 public:
  /// After a jump.
  /// @param first length [s] of the first step
  StepLength(double first, double time) : length_(first), longest_before_(first), jump_(time) {}

  [[nodiscard]] double length() const { return length_; }  ///< s
  /// A step of `length` [s] has failed: its error was above 1, or not a number.
  void reject(double length, double error);
  /// A step of `length` [s] has been taken up to `time` [s].
  void accept(double length, double error, double time);

 private:
  double length_;
  double longest_before_;  // s, step that would just have passed, of the step before
  double jump_;            // s
  bool first_ = true;
  bool rejected_ = false;
};

}  // namespace ampstair::marching
