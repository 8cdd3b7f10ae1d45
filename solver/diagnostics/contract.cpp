// SPDX-License-Identifier: MIT
#include "diagnostics/contract.hpp"

#include <cstdio>
#include <cstdlib>

namespace ampstair::diagnostics {

void contract_broken(const char* promise, const std::source_location& where) {
  std::fprintf(stderr, "ampstair: broken promise '%s' in %s (%s:%u). Please report this.\n",
               promise, where.function_name(), where.file_name(), where.line());
  std::abort();
}

}  // namespace ampstair::diagnostics
