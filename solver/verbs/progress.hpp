// SPDX-License-Identifier: MIT
#pragma once

#include <chrono>

namespace ampstair::verbs {

/// One line on a terminal that tells how far a march is and how long it will still take; nothing
/// elsewhere, nor while a march is quick.
class Progress {
 public:
  /// @param duration of the march in simulated time, s
  Progress(double duration, bool shown);
  /// Told after every time step; prints a few times a second at most.
  void at(double time);
  /// Clears the line.
  void finish();

 private:
  using Clock = std::chrono::steady_clock;
  double duration_;
  bool shown_;
  bool printed_ = false;
  Clock::time_point begin_ = Clock::now();
  Clock::time_point last_ = begin_;
};

}  // namespace ampstair::verbs
