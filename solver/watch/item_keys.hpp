// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "diagnostics/problem.hpp"
#include "sheet/mapping.hpp"
#include "watch/item.hpp"

namespace ampstair::watch {

/// A watch item as a sheet gives it, with the places of its texts.
struct ItemSheet {
  sheet::Text name;
  sheet::Text part;
  sheet::Number above;
  sheet::Number persistence;  ///< key `for`
  sheet::Text dose;
  sheet::Number energy;
  sheet::Text equal_to;
  sheet::Number char_depth;
  sheet::Number isotherm;
  sheet::Text from;
  sheet::Place place;
};

/// The keys of one entry of `watch:`.
const sheet::Mapping<ItemSheet>& item_keys();

/// Builds the items; whatever is wrong between the keys of an entry or between entries goes to
/// `problems`. An entry at fault is left out, so that places of the result match the sheet's only
/// when there are no errors.
std::vector<Item> items_of(const std::vector<ItemSheet>& entries,
                           diagnostics::ProblemList& problems);

}  // namespace ampstair::watch
