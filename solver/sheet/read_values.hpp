// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "sheet/declaration.hpp"

namespace ampstair::sheet {

/// How messages name a key: 'length' of piece 'south leg'.
struct Subject {
  std::string key;
  std::string of;    ///< " of piece 'south leg'", may be empty
  std::string path;  ///< "run[2].length"

  [[nodiscard]] std::string quoted() const { return "'" + key + "'" + of; }
};

struct NumberRule {
  Dimension dimension;
  Bounds bounds;
};

// Each reads one value as written, tells what is wrong with it, and then leaves it missing.
void read_number(const Node& node, const NumberRule& rule, const Subject& subject, Number& number,
                 diagnostics::ProblemList& problems);
void read_table(const Node& node, const NumberRule& rule, const Subject& subject, Table& table,
                diagnostics::ProblemList& problems);
void read_text_value(const Node& node, const std::vector<Option>& options, const Subject& subject,
                     Text& text, diagnostics::ProblemList& problems);
void read_truth(const Node& node, const Subject& subject, bool& truth,
                diagnostics::ProblemList& problems);
void read_texts(const Node& node, const Subject& subject, std::vector<Text>& texts,
                diagnostics::ProblemList& problems);

/// "did you mean tight?" and the words there are.
std::string suggest_word(const std::string& word, const std::vector<std::string>& words);
/// Tells keys that are not among `known`; `where` is "in instruments.camera".
void tell_unknown_keys(const Node& node, const std::vector<std::string>& known,
                       const std::string& where, diagnostics::ProblemList& problems);
/// E124: the value has another shape than the key wants.
void tell_wrong_shape(const Node& node, const Subject& subject, const std::string& wanted,
                      const std::string& remedy, diagnostics::ProblemList& problems);

}  // namespace ampstair::sheet
