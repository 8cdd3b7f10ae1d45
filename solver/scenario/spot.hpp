// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/problem.hpp"
#include "sheet/value.hpp"

namespace ampstair::scenario {

/// Where a piece lies along the run.
struct Extent {
  std::string name;
  double begin = 0.0;   ///< m
  double length = 0.0;  ///< m

  [[nodiscard]] double end() const { return begin + length; }
};

/// Position [m] of '<piece> + <offset>' (from its start), '<piece> - <offset>' (from its end),
/// '<piece>' (its middle), or a distance from the start of the run. Offsets from pieces without
/// length (lugs, cut ends) reach into their neighbours; all others stay inside the piece (E161).
/// @param subject what messages call it: "spot", "tap"
std::optional<double> locate(const sheet::Text& spot, std::string_view subject,
                             const std::vector<Extent>& run, diagnostics::ProblemList& problems);

}  // namespace ampstair::scenario
