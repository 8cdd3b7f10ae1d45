// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <string_view>

namespace ampstair::post::checks {

/// The two lines every printed verdict ends with. A verdict tells what a model gives under inputs;
/// what may be done with a building's wiring is not its business.
inline constexpr std::array<std::string_view, 2> cautions = {
    "This is not a rating, an ampacity, an approval or an inspection; where it and the code "
    "differ, follow the code.",
    "Ratings and permitted use are set by the code adopted where the building stands and applied "
    "by the authority having jurisdiction and licensed practitioners."};

}  // namespace ampstair::post::checks
