// SPDX-License-Identifier: MIT
#include "checks/validity.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "checks/amounts.hpp"
#include "checks/columns.hpp"

namespace ampstair::post::checks {

namespace {

/// The first moment of a flag on any of these parts that `counts`.
template <class Counts>
std::optional<double> first_of(const std::vector<ValidityFlag>& flags,
                               const std::vector<std::string>& parts, const Counts& counts) {
  for (const ValidityFlag& flag : flags) {
    if (counts(flag) && std::find(parts.begin(), parts.end(), flag.part) != parts.end()) {
      return flag.time;
    }
  }
  return std::nullopt;
}

std::string value_text(double value, const std::string& unit) {
  return unit == "1"      ? fmt::format("{:.4g}", value)
         : unit == "degC" ? fmt::format("{:.4g} °C", value)
                          : fmt::format("{:.4g} {}", value, unit);
}

}  // namespace

std::vector<ValidityFlag> stored_flags(const Histories& histories, const Places& places) {
  std::vector<ValidityFlag> flags;
  const Columns columns(histories, "validity");
  if (!columns.has("code")) {
    return flags;
  }
  const auto code = columns.texts("code");
  const auto severity = columns.texts("severity");
  const auto part = columns.texts("part");
  const auto unit = columns.texts("unit");
  const auto words = columns.texts("text");
  const auto time = columns.numbers("time");
  const auto position = columns.numbers("position");
  const auto current = columns.numbers("current");
  const auto value = columns.numbers("value");
  const auto limit = columns.numbers("limit");
  const bool goes_on = !histories.beyond().empty();
  for (std::size_t i = 0; i < code.size(); ++i) {
    ValidityFlag flag{code[i],    words.at(i), severity.at(i), part.at(i),  {},
                      time.at(i), {},          value.at(i),    limit.at(i), unit.at(i)};
    flag.ends_results = flag.severity == "stop" || (flag.severity == "beyond" && !goes_on);
    if (!std::isnan(position.at(i))) {
      flag.spot = places.spot(position[i]);
    }
    if (!std::isnan(current.at(i))) {
      flag.current = current[i];
    }
    flags.push_back(std::move(flag));
  }
  std::stable_sort(flags.begin(), flags.end(),
                   [](const auto& a, const auto& b) { return a.time < b.time; });
  return flags;
}

std::optional<double> usable_until(const std::vector<ValidityFlag>& flags,
                                   const std::vector<std::string>& parts) {
  return first_of(flags, parts, [](const ValidityFlag& flag) { return flag.ends_results; });
}

std::optional<double> held_until(const std::vector<ValidityFlag>& flags,
                                 const std::vector<std::string>& parts) {
  return first_of(flags, parts, [](const ValidityFlag& flag) { return flag.severity != "note"; });
}

std::string flag_text(const ValidityFlag& flag) {
  const std::string where = flag.spot ? " at " + spot_text(*flag.spot) : "";
  const std::string what = flag.severity == "stop"     ? "the march stops: "
                           : flag.ends_results         ? "not to be used from then on: "
                           : flag.severity == "beyond" ? "told beyond the model from then on: "
                                                       : "";
  return fmt::format("{} at {}: {}{} ({}{}, limit {})", flag.code, minute_text(flag.time), what,
                     flag.text, value_text(flag.value, flag.unit), where,
                     value_text(flag.limit, flag.unit));
}

void mind_validity(const std::optional<double>& until, const std::vector<ValidityFlag>& flags,
                   ItemFinding& finding) {
  if (finding.state == watch::State::crossed) {
    if (until && finding.crossing && finding.crossing->time > *until) {
      const std::string told =
          "beyond what the model holds for from " + minute_text(*until) + " on";
      finding.remark = finding.remark.empty() ? told : told + "; " + finding.remark;
    }
    return;
  }
  const auto stop = std::find_if(flags.begin(), flags.end(),
                                 [](const auto& flag) { return flag.severity == "stop"; });
  if (!until && stop == flags.end()) {
    return;
  }
  const bool part_ends = until && (stop == flags.end() || *until < stop->time);
  const std::string from =
      part_ends ? fmt::format("from {} on the part is beyond what the model holds for",
                              minute_text(*until))
                : fmt::format("the march stopped at {}", minute_text(stop->time));
  const std::string before =
      finding.hottest ? fmt::format("; {} until then", name_of(finding.state)) : "";
  finding.remark = from + before + (finding.remark.empty() ? "" : ": " + finding.remark);
  finding.state = watch::State::cannot_say;
  finding.char_depth.reset();
}

}  // namespace ampstair::post::checks
