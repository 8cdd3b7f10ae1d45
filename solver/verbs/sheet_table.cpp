// SPDX-License-Identifier: MIT
#include "verbs/sheet_table.hpp"

#include <cstdint>
#include <limits>
#include <string>
#include <vector>

#include "sheet/entries.hpp"

namespace ampstair::verbs {

history::Table sheet_table(const scenario::RunSheet& sheet) {
  constexpr double missing = std::numeric_limits<double>::quiet_NaN();
  std::vector<std::string> path, text, unit, source;
  std::vector<double> value, low, high;
  std::vector<std::int64_t> by_default;
  for (const auto& entry : sheet::entries_of(scenario::run_sheet_keys(), sheet)) {
    path.push_back(entry.path);
    text.push_back(entry.text);
    value.push_back(entry.value.value_or(missing));
    low.push_back(entry.low.value_or(missing));
    high.push_back(entry.high.value_or(missing));
    unit.push_back(entry.unit);
    source.push_back(entry.source);
    by_default.push_back(entry.by_default ? 1 : 0);
  }
  return {"sheet",
          "the completed run sheet of this arrangement, value by value",
          {{{"path", "keys from the top; items of a list by name, else by number", ""}, path},
           {{"text", "as written, with its band, or the default", ""}, text},
           {{"value", "of a number, in the unit beside it", "1"}, value},
           {{"low", "low end of its band", "1"}, low},
           {{"high", "high end of its band", "1"}, high},
           {{"unit", "unit of the three", ""}, unit},
           {{"source", "where it came from, or why this default", ""}, source},
           {{"by_default", "1: not given by the run sheet", "1"}, by_default}}};
}

}  // namespace ampstair::verbs
