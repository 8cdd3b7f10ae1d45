// SPDX-License-Identifier: MIT
#include <iostream>
#include <string>

#include "diagnostics/problem.hpp"
#include "export/schemas.hpp"
#include "verbs/post_verbs.hpp"

namespace ampstair::post::verbs {

diagnostics::ExitCode schema(Arguments arguments) {
  const std::string word = arguments.size() == 1 ? arguments.front() : std::string();
  if (word == "--help" || word == "-h") {
    std::cout
        << "Usage: ampstair-post schema export|verdict|compare\nPrints the JSON Schema (draft "
           "2020-12) of what  export --json  writes, or  verdict --json  or  compare --json  "
           "prints.\n";
  } else if (word == "export") {
    std::cout << tables::export_schema();
  } else if (word == "compare") {
    std::cout << tables::compare_schema();
  } else if (word == "verdict") {
    std::cout << tables::verdict_schema();
  } else {
    throw diagnostics::InputError("E701", "schema needs to know of what.",
                                  "write  schema export,  schema verdict  or  schema compare");
  }
  return diagnostics::ExitCode::clear;
}

}  // namespace ampstair::post::verbs
