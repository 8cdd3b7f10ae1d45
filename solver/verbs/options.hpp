// SPDX-License-Identifier: MIT
#pragma once

#include <boost/program_options.hpp>
#include <optional>
#include <string>
#include <vector>

#include "verbs/verbs.hpp"

namespace ampstair::verbs {

/// Options of one verb with its help page; the plain arguments are kept under "arguments".
class Options {
 public:
  static constexpr std::size_t any_number = static_cast<std::size_t>(-1);

  /// @param usage "check SHEET [options]"
  /// @param plain how many plain arguments the verb takes, or `any_number`
  Options(std::string usage, std::string help, std::size_t plain);

  boost::program_options::options_description_easy_init add();

  /// Absent where `--help` was asked for and answered.
  /// @throws diagnostics::InputError on a wrong command line (E600)
  [[nodiscard]] std::optional<boost::program_options::variables_map> read(
      Arguments arguments) const;

 private:
  std::string usage_;
  std::string help_;
  std::size_t plain_;
  boost::program_options::options_description visible_{"Options"};
};

/// The i-th plain argument; `read` has made sure that it is there.
std::string plain_argument(const boost::program_options::variables_map& options, std::size_t i);
/// All plain arguments, of a verb that takes any number.
std::vector<std::string> plain_arguments(const boost::program_options::variables_map& options);

}  // namespace ampstair::verbs
