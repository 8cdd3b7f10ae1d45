// SPDX-License-Identifier: MIT
#include "verbs/progress.hpp"

#include <fmt/format.h>

#include <iostream>

namespace ampstair::verbs {

Progress::Progress(double duration, bool shown) : duration_(duration), shown_(shown) {}

void Progress::at(double time) {
  using std::chrono::duration;
  const auto now = Clock::now();
  if (!shown_ || now - last_ < std::chrono::milliseconds(250) || time <= 0.0) {
    return;
  }
  last_ = now;
  printed_ = true;
  const double taken = duration<double>(now - begin_).count();
  const double left = taken * (duration_ - time) / time;
  std::cerr << fmt::format("\r  minute {:.1f} of {:.1f}, about {:.0f} s left   ", time / 60.0,
                           duration_ / 60.0, left)
            << std::flush;
}

void Progress::finish() {
  if (printed_) {
    std::cerr << "\r" << std::string(60, ' ') << "\r" << std::flush;
  }
}

}  // namespace ampstair::verbs
