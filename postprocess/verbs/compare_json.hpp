// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "verbs/compared.hpp"

namespace ampstair::post::verbs {

/// The same as JSON; COMPARE.md tells every key.
std::string compare_json(const std::vector<Compared>& records);

}  // namespace ampstair::post::verbs
