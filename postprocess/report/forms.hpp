// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "report/source.hpp"

// Pages for one kind of reader: what stands between heading and footer.

namespace ampstair::post::report {

/// The pieces of a page that the forms put in their own order, markup.
struct Parts {
  std::string finding;  ///< one sentence
  std::string answers;  ///< the ten questions
  std::string figures;
  std::string run_sheet;  ///< word for word
  std::string cautions;
};

/// The twelve sections of a report for a file or a court; what only a person can say is left blank.
std::string for_court(const std::vector<Source>& sources, const Parts& parts);
/// Results hidden until guesses are typed, then scored.
std::string for_class(const std::vector<Source>& sources, const Parts& parts);
/// One card to print and take to the bench: a row every five minutes, a blank for what is read.
std::string for_bench(const std::vector<Source>& sources, const Parts& parts);

}  // namespace ampstair::post::report
