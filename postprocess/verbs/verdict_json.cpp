// SPDX-License-Identifier: MIT
#include "verbs/verdict_json.hpp"

#include "checks/amounts.hpp"
#include "checks/cautions.hpp"
#include "checks/judge.hpp"
#include "verbs/finding_json.hpp"
#include "verbs/settling_and_device.hpp"

namespace ampstair::post::verbs {

namespace {

Json flag(const checks::ValidityFlag& value) {
  Json object;
  object["code"] = value.code;
  object["severity"] = value.severity;
  object["text"] = value.text;
  object["part"] = value.part;
  object["time_s"] = value.time;
  object["position_m"] = value.spot ? Json(value.spot->position) : Json(nullptr);
  object["place"] = value.spot ? Json(value.spot->name) : Json(nullptr);
  object["current_A"] = or_null(value.current);
  object["value"] = value.value;
  object["limit"] = value.limit;
  object["unit"] = value.unit;
  return object;
}

Json ledger(const std::optional<checks::Ledger>& value) {
  if (!value) {
    return nullptr;
  }
  Json object;
  object["made_J"] = value->made;
  object["lost_J"] = value->lost;
  object["stored_J"] = value->stored;
  object["gap_J"] = value->gap;
  object["worst_gap_part_of_made"] = value->worst_gap;
  return object;
}

}  // namespace

std::string verdict_json(const checks::Verdict& verdict, const std::string& record) {
  const checks::Findings& findings = verdict.findings;
  Json object;
  object["schema"] = "ampstair-verdict/1";
  object["record"] = record;
  object["run"] = heading_json(findings.heading);
  object["overall"] = name_of(findings.overall);
  object["exit_code"] = static_cast<int>(exit_code(findings));
  object["near_margin_K"] = watch::near_margin;
  object["hottest_conductor"] = reading_json(findings.hottest_conductor);
  object["hottest_step"] = or_null(findings.hottest_step);
  object["steps"] = Json::array();
  for (const auto& finding : findings.steps) {
    object["steps"].push_back(step_json(finding));
  }
  object["settling"] = settling_json(verdict);
  object["items"] = Json::array();
  for (const auto& finding : findings.items) {
    object["items"].push_back(item_json(finding));
  }
  object["device"] = device_json(verdict);
  object["ledger"] = ledger(findings.ledger);
  object["validity"] = Json::array();
  for (const auto& found : findings.validity) {
    object["validity"].push_back(flag(found));
  }
  object["notes"] = findings.notes;
  object["cautions"] = checks::cautions;
  return object.dump(2) + "\n";
}

}  // namespace ampstair::post::verbs
