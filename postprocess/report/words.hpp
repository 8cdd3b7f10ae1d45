// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>

#include "checks/findings.hpp"
#include "checks/step_settling.hpp"
#include "watch/state.hpp"

// Findings as markup, in both systems of units.

namespace ampstair::post::report {

inline constexpr const char* dash = "–";  ///< where there is nothing to say

std::string both_temperatures(double kelvin);               ///< "118 °C (245 °F)"
std::string both_readings(const checks::Reading& reading);  ///< with the bar, where there is one
std::string both_lengths(double metres);                    ///< "3.74 m (12 ft 3 in)"
std::string place(const checks::Spot& spot);  ///< "drop + 0.345 m, 3.74 m (12 ft 3 in)"
std::string minutes(double seconds);          ///< "67.3"
/// "67.3", or with the bar of error rounded up "67.3 ± 0.1".
std::string crossing_minute(const checks::Crossing& crossing);
std::string amperes(const std::optional<double>& value);  ///< "42.0 A", or a dash
std::string asked(const checks::StepFinding& step);       ///< "42.0 A", "2.00 V", "rest"
/// A step's rest in a word and what is still to come: settled, rising, flat but rising.
std::string rest_words(const checks::StepSettling& step);
/// A state by letter, shape and word, never by a colour alone.
std::string state_mark(watch::State state);

}  // namespace ampstair::post::report
