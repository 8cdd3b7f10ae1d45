// SPDX-License-Identifier: MIT
#include "checks/columns.hpp"

#include <limits>

namespace ampstair::post::checks {

std::vector<double> Columns::numbers_if_any(const std::string& column, std::size_t count) const {
  return has(column) ? numbers(column)
                     : std::vector<double>(count, std::numeric_limits<double>::quiet_NaN());
}

}  // namespace ampstair::post::checks
