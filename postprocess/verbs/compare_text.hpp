// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "verbs/compared.hpp"

namespace ampstair::post::verbs {

/// What differs between records and what it did, as tables of at most 100 characters a line.
/// @param records at least two; differences are against the first
std::string compare_text(const std::vector<Compared>& records);

}  // namespace ampstair::post::verbs
