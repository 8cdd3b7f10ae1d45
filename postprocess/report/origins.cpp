// SPDX-License-Identifier: MIT
#include "report/origins.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace ampstair::post::report {

namespace {

struct Origin {
  std::string_view id;
  std::string_view paths;  // one space between them
};

constexpr std::array origins = {
    Origin{"p1",
           "time current_asked current ambient_air ambient_speed conductor_temperature "
           "surface_temperature ceramic_temperature wood_temperature watch"},
    Origin{"p2", "time position conductor_temperature pieces"},
    Origin{"p3", "position conductor_temperature surface_temperature steps pieces"},
    Origin{"p4", "time conductor_temperature"},
    Origin{"p5", "device openings current steps watch"},
    Origin{"p7", "fields grid"},
    Origin{"p8", "heat_budget"},
    Origin{"t1", "pieces values"},
    Origin{"t2",
           "steps current_asked current voltage power conductor_temperature surface_temperature "
           "ceramic_temperature wood_temperature"},
    Origin{"t2b", "steps time conductor_temperature"},
    Origin{"t3",
           "watch time position conductor_temperature surface_temperature wood_temperature "
           "wood_char_depth"},
    Origin{"t5", "device openings current"},
    Origin{"t6d", "sheet settings"},
    Origin{"t6", "steps conductor_temperature voltage"},
    Origin{"t6c", "watch time conductor_temperature wood_temperature"},
    Origin{"t7", "camera thermocouples taps touch surface_temperature voltage current"},
    Origin{"t9", "values"},
    Origin{"t10", "validity"},
    Origin{"t12", "heat_made heat_lost heat_stored ledger_gap"},
    Origin{"t13", "heat_budget body_budget"},
    Origin{"card",
           "steps time current_asked voltage conductor_temperature surface_temperature "
           "ceramic_temperature wood_temperature watch"},
};

}  // namespace

std::string origin_line(std::string_view id) {
  const auto found = std::find_if(origins.begin(), origins.end(),
                                  [&](const Origin& origin) { return origin.id == id; });
  if (found == origins.end()) {
    return {};
  }
  std::string list;
  std::string_view left = found->paths;
  while (!left.empty()) {
    const std::size_t end = std::min(left.find(' '), left.size());
    list += fmt::format("{}<code>/{}</code>", list.empty() ? "" : ", ", left.substr(0, end));
    left.remove_prefix(std::min(end + 1, left.size()));
  }
  return "<p class=\"origin\">In the record: " + list + "</p>\n";
}

}  // namespace ampstair::post::report
