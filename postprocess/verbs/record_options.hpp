// SPDX-License-Identifier: MIT
#pragma once

#include <boost/program_options.hpp>
#include <optional>
#include <string>

#include "verbs/post_verbs.hpp"

namespace ampstair::post::verbs {

/// The options of one verb; every verb takes one record.
class Options {
 public:
  /// @param usage what follows "ampstair-post ", e.g. "show RECORD"
  Options(std::string verb, std::string usage, std::string help);

  /// Where a verb declares options of its own.
  boost::program_options::options_description_easy_init add();

  /// Reads the arguments.
  /// @return nothing where help was asked for and has been printed
  /// @throws diagnostics::InputError: unknown option, no record, more than one record
  std::optional<boost::program_options::variables_map> read(Arguments arguments) const;

 private:
  std::string verb_;
  std::string usage_;
  std::string help_;
  boost::program_options::options_description visible_{"Options"};
};

/// The record named on the command line.
std::string record_of(const boost::program_options::variables_map& options);

}  // namespace ampstair::post::verbs
