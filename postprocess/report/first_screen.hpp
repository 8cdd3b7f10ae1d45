// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "report/source.hpp"

namespace ampstair::post::report {

/// The ten questions every reader brings, each with its answer or with why there is none, in their
/// order: hottest place, which step was too much, settled, instruments, largest current, other
/// surroundings, the device, how sure, inside what the model is good for, can it be repeated.
std::string answers(const std::vector<Source>& sources);

}  // namespace ampstair::post::report
