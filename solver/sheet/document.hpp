// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "diagnostics/problem.hpp"
#include "sheet/node.hpp"

namespace ampstair::sheet {

/// A sheet as read: its name for messages, its text word for word, and its nodes.
struct Document {
  std::string name;
  std::string text;
  std::optional<Node> root;  ///< absent where the text could not be read as YAML
};

/// Reads a file. Whatever is wrong with it as a file or as YAML is added to `problems`, all at once
/// where reading can go on. Sheets above 4 MiB are refused.
Document read_document(const std::filesystem::path& path, diagnostics::ProblemList& problems);

/// The same from a text, under a name for messages.
Document read_text(std::string_view text, std::string name, diagnostics::ProblemList& problems);

}  // namespace ampstair::sheet
