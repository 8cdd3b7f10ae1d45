// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "report/source.hpp"

namespace ampstair::post::report {

/// What a device has to do against what the run carried, as multiples of its rating over the time
/// at that current: {must_hold, openings: [{times, within}], paths: [{step, amperes, kind, minute,
/// times}], crossings: [{item, order, step, rank, minute, times, label}], latest: {minute, times,
/// label} or null, reach: [least minute, most, least multiple, most]}. A path runs through its
/// step ("full") and goes on ("higher") while the current stays at that step's least or above.
/// Null without a device.
nlohmann::json envelope_data(const Source& source);

}  // namespace ampstair::post::report
