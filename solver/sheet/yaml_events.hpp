// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "diagnostics/problem.hpp"
#include "sheet/node.hpp"
#include "sheet/raw_scan.hpp"

namespace ampstair::sheet {

/// Parses a mended text into nodes whose places are those of the original text.
/// Nothing where it is not YAML; a Problem says why, unless the scan told a likelier cause.
std::optional<Node> parse_yaml(const Mended& mended, std::string_view original,
                               const std::string& name, diagnostics::ProblemList& problems);

}  // namespace ampstair::sheet
