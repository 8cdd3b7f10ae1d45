// SPDX-License-Identifier: MIT
#pragma once

#include <limits>
#include <string>

namespace ampstair::marching {

/// Something outside of what the model's properties and correlations hold for, from `time` on.
struct Flag {
  enum class Severity {
    note,    ///< to be known; the results stand
    beyond,  ///< the results of the part are not to be used from then on
    stop     ///< and the march ends there
  };
  std::string code;  ///< "V110"; codes never change their meaning
  std::string text;
  Severity severity = Severity::note;
  std::string part;  ///< as watch items call it; empty where it is of none
  double position = std::numeric_limits<double>::quiet_NaN();  ///< m along the run
  double time = 0.0;                                           ///< s
  double current = std::numeric_limits<double>::quiet_NaN();   ///< A
  double value = 0.0;                                          ///< SI, of `unit`
  double limit = 0.0;
  std::string unit;  ///< "K", "A" or "1"
};

}  // namespace ampstair::marching
