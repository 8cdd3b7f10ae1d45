// SPDX-License-Identifier: MIT
#pragma once

#include <iosfwd>
#include <stdexcept>
#include <string>
#include <vector>

#include "diagnostics/place.hpp"

namespace ampstair::diagnostics {

enum class Severity { error, warning };

/// One fault of a user's input, worded for the user: what is wrong (with the text that was read),
/// why it is wrong, and one concrete thing to write instead.
struct Problem {
  Severity severity = Severity::error;
  std::string code;    ///< stable identifier, e.g. "E110"
  Place place;         ///< where the offending text begins
  std::string what;    ///< what is wrong and why, ends with a full stop
  std::string remedy;  ///< what to write instead; printed after "try: ", may be empty
};

/// "file:line:column: error E110 what" and, indented below it, "try: remedy".
std::string describe(const Problem& problem);

/// Collects the faults of one input so that all can be told at once.
class ProblemList {
 public:
  void add(Problem problem);
  void error(std::string code, Place place, std::string what, std::string remedy = {});
  void warning(std::string code, Place place, std::string what, std::string remedy = {});

  [[nodiscard]] bool has_errors() const;
  [[nodiscard]] bool empty() const { return problems_.empty(); }
  /// The faults ordered by file, line and column; exact repetitions are dropped.
  [[nodiscard]] std::vector<Problem> sorted() const;
  void print(std::ostream& out) const;

 private:
  std::vector<Problem> problems_;
};

/// Input that cannot be used. A program prints the list and ends with ExitCode::bad_input.
class InputError : public std::runtime_error {
 public:
  explicit InputError(ProblemList problems);
  /// A single fault without a place in a file (a missing file, a bad option).
  InputError(std::string code, std::string what, std::string remedy = {});

  [[nodiscard]] const ProblemList& problems() const { return problems_; }

 private:
  ProblemList problems_;
};

}  // namespace ampstair::diagnostics
