// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "verbs/post_verbs.hpp"

namespace ampstair::post::verbs {

/// What was given on the command line of a verb.
struct Given {
  std::string record;                          ///< the first
  std::vector<std::string> others;             ///< those after it, where a verb takes several
  std::map<std::string, std::string> options;  ///< by name; a flag has an empty text

  [[nodiscard]] bool has(const std::string& option) const { return options.count(option) > 0; }
};

/// The options of one verb.
class RecordOptions {
 public:
  struct Option {
    std::string name;
    std::string argument;  ///< "FILE"; empty: a flag
    std::string help;
  };

  enum class Records { one, several };

  /// @param usage what follows "ampstair-post ", e.g. "show RECORD"
  RecordOptions(std::string verb, std::string usage, std::string help, std::vector<Option> options,
                Records records = Records::one);

  /// Reads the arguments.
  /// @return nothing where help was asked for and has been printed
  /// @throws diagnostics::InputError: an unknown option, one given twice or without its argument;
  ///   no record, or more than one where a verb takes one
  [[nodiscard]] std::optional<Given> read(Arguments arguments) const;

 private:
  std::string verb_;
  std::string usage_;
  std::string help_;
  std::vector<Option> options_;
  Records records_;
};

}  // namespace ampstair::post::verbs
