// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "checks/histories.hpp"
#include "watch/item.hpp"

namespace ampstair::post::checks {

/// The watch items a record carries from its run sheet, in their order.
/// @throws diagnostics::InputError: an item of a kind this program does not know,
///   or one without a number its kind needs
std::vector<watch::Item> stored_items(const Histories& histories);

}  // namespace ampstair::post::checks
