// SPDX-License-Identifier: MIT
#include "verbs/settling_and_device.hpp"

#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "checks/amounts.hpp"
#include "checks/sentences.hpp"
#include "checks/zero_celsius.hpp"
#include "verbs/finding_json.hpp"
#include "verbs/text_table.hpp"
#include "verbs/words.hpp"

namespace ampstair::post::verbs {

namespace {

std::vector<Column> settling_columns() {
  std::vector<Column> columns = {{"#", -2}};
  for (const auto rule : checks::all_rules) {
    columns.push_back({checks::document_of(rule), -12});
  }
  columns.push_back({"at the end of the step", 38});
  return columns;
}

std::string rule_text(const checks::RuleInStep& rule) {
  if (!rule.after) {
    return nothing;
  }
  return minutes(*rule.after) +
         (rule.to_come ? fmt::format(" ({})", checks::figures(std::abs(*rule.to_come), 1)) : "");
}

std::string rules_line() {
  std::string text;
  for (const auto rule : checks::all_rules) {
    text += fmt::format("{}{}: {}", text.empty() ? "" : "; ", checks::document_of(rule),
                        checks::meaning_of(rule));
  }
  return paragraph(text +
                       "; -: not within the step. What is still to come is extrapolated as if the "
                       "last half of the step closed in evenly; porcelain, wood and fill may "
                       "make it more.",
                   2);
}

const char* name_of(checks::Rest rest) {
  switch (rest) {
    case checks::Rest::settled:
      return "settled";
    case checks::Rest::rising:
      return "rising";
    case checks::Rest::falling:
      return "falling";
    case checks::Rest::flat_but_rising:
      return "flat_but_rising";
    case checks::Rest::flat_but_falling:
      return "flat_but_falling";
    case checks::Rest::rising_faster:
      return "rising_faster";
    case checks::Rest::no_steady_state:
      return "no_steady_state";
    case checks::Rest::cannot_say:
      break;
  }
  return "cannot_say";
}

const char* name_of(checks::Order order) {
  switch (order) {
    case checks::Order::device_first:
      return "device_first";
    case checks::Order::not_required:
      return "not_required";
    case checks::Order::cannot_have:
      return "cannot_have";
    case checks::Order::cannot_say:
      break;
  }
  return "cannot_say";
}

Json crossings_json(const checks::Verdict& verdict) {
  Json all = Json::array();
  const auto& opening = verdict.opening;
  for (const auto& item : verdict.findings.items) {
    if (item.crossing) {
      Json one;
      one["item"] = item.item.name;
      one["time_s"] = item.crossing->time;
      one["order"] =
          name_of(checks::order(opening, item.crossing->time, checks::slack_of(*item.crossing)));
      one["after_latest_opening_s"] =
          opening.latest ? Json(item.crossing->time - *opening.latest) : Json(nullptr);
      one["known_to_s"] = checks::slack_of(*item.crossing);
      all.push_back(std::move(one));
    }
  }
  return all;
}

}  // namespace

std::string settling_text(const checks::Verdict& verdict) {
  if (verdict.settling.empty()) {
    return {};
  }
  std::string text =
      "\nSettled? Minutes after the step begins by four published rules (then still to come, K)\n";
  text += table_heading(settling_columns());
  for (const auto& step : verdict.settling) {
    std::vector<std::string> fields = {fmt::format("{}", step.number)};
    for (const auto& rule : step.rules) {
      fields.push_back(rule_text(rule));
    }
    fields.push_back(checks::rest_word(step) + "; " + checks::rest_remark(step));
    text += table_row(settling_columns(), fields);
  }
  return text + rules_line();
}

std::string device_text(const checks::Verdict& verdict) {
  if (!verdict.device) {
    return "\nOvercurrent device: none given; nothing can be said about opening.\n";
  }
  const auto& opening = verdict.opening;
  const auto moment = [](const std::optional<double>& time) {
    return time ? checks::minute_text(*time) : std::string("none");
  };
  std::string text =
      "\n" + paragraph("Overcurrent device: " + checks::device_text(*verdict.device), 0);
  text += paragraph("earliest opening: " + moment(opening.earliest) + "; " +
                        checks::earliest_text(*verdict.device, opening),
                    2);
  text += paragraph(
      "latest opening: " + moment(opening.latest) + "; " + checks::latest_text(opening), 2);
  for (const auto& item : verdict.findings.items) {
    if (item.crossing) {
      text += paragraph(
          fmt::format("{} at {}: {}", item.item.name, checks::minute_text(item.crossing->time),
                      checks::device_sentence(opening, *item.crossing)),
          2);
    }
  }
  return text + paragraph(
                    "The model does not show whether this device meets its limits, nor whether "
                    "it opened.",
                    2);
}

Json settling_json(const checks::Verdict& verdict) {
  Json all = Json::array();
  for (const auto& step : verdict.settling) {
    Json one;
    one["step"] = step.number;
    one["state"] = name_of(checks::rest_of(step));
    one["heading_for_degC"] =
        step.final_temperature ? Json(*step.final_temperature - celsius_zero) : Json(nullptr);
    one["to_come_K"] = or_null(step.to_come);
    one["settles_at_none_above_A"] = step.none ? Json(step.none->above) : Json(nullptr);
    one["rules"] = Json::array();
    for (const auto& rule : step.rules) {
      Json by_rule;
      by_rule["rule"] = watch::word_of(rule.rule);
      by_rule["from"] = checks::document_of(rule.rule);
      by_rule["after_s"] = or_null(rule.after);
      by_rule["to_come_K"] = or_null(rule.to_come);
      one["rules"].push_back(std::move(by_rule));
    }
    all.push_back(std::move(one));
  }
  return all;
}

Json device_json(const checks::Verdict& verdict) {
  if (!verdict.device) {
    return nullptr;
  }
  Json object;
  object["kind"] = verdict.device->kind;
  object["rating_A"] = verdict.device->rating;
  object["must_hold_times"] = or_null(verdict.device->must_hold);
  object["must_open"] = Json::array();
  for (const auto& opening : verdict.device->must_open) {
    object["must_open"].push_back({{"times", opening.times}, {"within_s", opening.within}});
  }
  object["from"] = verdict.device->source;
  object["earliest_opening_s"] = or_null(verdict.opening.earliest);
  object["latest_opening_s"] = or_null(verdict.opening.latest);
  object["crossings"] = crossings_json(verdict);
  return object;
}

}  // namespace ampstair::post::verbs
