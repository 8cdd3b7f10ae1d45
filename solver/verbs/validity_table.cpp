// SPDX-License-Identifier: MIT
#include "verbs/validity_table.hpp"

#include <fmt/format.h>

#include <cmath>

#include "heat/constants.hpp"

namespace ampstair::verbs {

namespace {

using marching::Flag;

const char* severity_word(Flag::Severity severity) {
  switch (severity) {
    case Flag::Severity::note:
      return "note";
    case Flag::Severity::beyond:
      return "beyond";
    case Flag::Severity::stop:
      break;
  }
  return "stop";
}

bool is_temperature(const Flag& flag) {
  return flag.unit == "K";
}

double shown(const Flag& flag, double value) {
  return is_temperature(flag) ? value - heat::zero_celsius : value;
}

std::string shown_unit(const Flag& flag) {
  return is_temperature(flag) ? "degC" : flag.unit;
}

}  // namespace

history::Table validity_table(const std::vector<Flag>& flags) {
  std::vector<std::string> code, severity, part, unit, text;
  std::vector<double> time, position, current, value, limit;
  for (const Flag& flag : flags) {
    time.push_back(flag.time);
    code.push_back(flag.code);
    severity.emplace_back(severity_word(flag.severity));
    part.push_back(flag.part);
    position.push_back(flag.position);
    current.push_back(flag.current);
    value.push_back(shown(flag, flag.value));
    limit.push_back(shown(flag, flag.limit));
    unit.push_back(shown_unit(flag));
    text.push_back(flag.text);
  }
  return {"validity",
          "what lay outside of what the model holds for, from its first moment on",
          {{{"time", "first moment, since the start of the march", "s"}, time},
           {{"code", "what kind of flag", ""}, code},
           {{"severity", "note, beyond (not to be used from then on) or stop", ""}, severity},
           {{"part", "part it is about; empty: none", ""}, part},
           {{"position", "where, from the start of the run", "m"}, position},
           {{"current", "current got then", "A"}, current},
           {{"value", "value then, in the unit beside it", "1"}, value},
           {{"limit", "end of the range, in the unit beside it", "1"}, limit},
           {{"unit", "unit of value and limit", ""}, unit},
           {{"text", "what it means", ""}, text}}};
}

std::string flag_words(const Flag& flag, const scenario::Scenario& scenario) {
  std::string where;
  for (const auto& piece : scenario.run) {
    if (piece.length > 0.0 && flag.position >= piece.begin && flag.position <= piece.end()) {
      where = fmt::format(", {} + {:.3f} m", piece.name, flag.position - piece.begin);
    }
  }
  const std::string unit = flag.unit == "1" ? "" : " " + shown_unit(flag);
  return fmt::format("{} {} from {:.4g} min on: {} ({:.4g}{}, limit {:.4g}{}{})", flag.code,
                     severity_word(flag.severity), flag.time / 60.0, flag.text,
                     shown(flag, flag.value), unit, shown(flag, flag.limit), unit, where);
}

}  // namespace ampstair::verbs
