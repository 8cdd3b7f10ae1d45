// SPDX-License-Identifier: MIT
#include "export/csv.hpp"

#include <fmt/format.h>

#include <cmath>
#include <cstddef>

namespace ampstair::post::tables {

std::string csv_field(std::string_view text) {
  if (text.find_first_of(",\"\r\n") == std::string_view::npos) {
    return std::string(text);
  }
  std::string quoted = "\"";
  for (const char c : text) {
    quoted += c;
    if (c == '"') {
      quoted += c;
    }
  }
  return quoted + '"';
}

std::string csv_record(const std::vector<std::string>& fields) {
  std::string line;
  for (std::size_t i = 0; i < fields.size(); ++i) {
    line += i == 0 ? "" : ",";
    line += csv_field(fields[i]);
  }
  return line + "\r\n";
}

std::string csv_number(double value, bool single) {
  if (!std::isfinite(value)) {
    return {};
  }
  return single ? fmt::format("{}", static_cast<float>(value)) : fmt::format("{}", value);
}

}  // namespace ampstair::post::tables
