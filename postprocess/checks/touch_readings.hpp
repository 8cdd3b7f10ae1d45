// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "checks/histories.hpp"
#include "checks/readings.hpp"
#include "checks/step_ends.hpp"

namespace ampstair::post::checks {

/// Highest extra-low voltage: 50 V a.c. (IEC 61140, from memory, very sure; 120 V d.c. there, 50 V
/// taken for both).
inline constexpr double extra_low_voltage = 50.0;  // V

/// The highest voltage [V] a record's supply can have: its limit, or what a staircase of voltages
/// asks for; none where the run sheet does not tell.
std::optional<double> highest_supply_voltage(const Histories& histories);

/// What a hand would meet at the end of every step, and whether a burn is expected (ISO 13732-1).
/// It grades no pain and invites no touch: above a burn threshold, and on any part of a wire whose
/// supply is not known to be extra-low voltage, it says not to touch.
std::vector<InstrumentReading> touch_readings(const Histories& histories,
                                              const std::vector<StepEnd>& ends);

}  // namespace ampstair::post::checks
