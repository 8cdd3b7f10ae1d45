// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "watch/item.hpp"

namespace ampstair::watch {

/// Reads watch items from a YAML file of their own: a list under the one top-level key `watch:`,
/// its entries as in a run sheet.
/// @throws diagnostics::InputError with every fault of the file
std::vector<Item> read_items(const std::filesystem::path& path);

/// The same from a text, under a name for messages.
std::vector<Item> read_items_text(std::string_view text, std::string name);

}  // namespace ampstair::watch
