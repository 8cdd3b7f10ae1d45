// SPDX-License-Identifier: MIT
#include "verbs/compare_json.hpp"

#include "checks/cautions.hpp"
#include "verbs/finding_json.hpp"

namespace ampstair::post::verbs {

namespace {

Json record(const Compared& compared) {
  Json object;
  object["record"] = compared.name;
  object["run"] = heading_json(compared.findings.heading);
  object["overall"] = name_of(compared.findings.overall);
  object["hottest_conductor"] = reading_json(compared.findings.hottest_conductor);
  object["notes"] = compared.findings.notes;
  return object;
}

Json value(const std::optional<checks::SheetValue>& held) {
  if (!held) {
    return nullptr;
  }
  Json object;
  object["text"] = held->text;
  object["value"] = or_null(held->value);
  object["low"] = or_null(held->low);
  object["high"] = or_null(held->high);
  object["unit"] = held->unit;
  object["source"] = held->source;
  object["by_default"] = held->by_default;
  return object;
}

Json difference(const checks::Difference& found) {
  Json object;
  object["path"] = found.path;
  object["place"] = found.place;
  object["key"] = found.key;
  object["source_only"] = found.of_source;
  object["values"] = Json::array();
  for (const auto& held : found.values) {
    object["values"].push_back(value(held));
  }
  return object;
}

Json step(const checks::StepBeside& cell) {
  if (cell.step == nullptr) {
    return nullptr;
  }
  Json object;
  object["begin_s"] = cell.step->begin;
  object["end_s"] = cell.step->end;
  object["asked_A"] = or_null(cell.step->asked);
  object["got_A"] = or_null(cell.step->got);
  object["voltage_V"] = or_null(cell.step->voltage);
  object["hottest_conductor"] =
      cell.hottest != nullptr ? reading_json(*cell.hottest) : Json(nullptr);
  object["at_end"] = cell.at_end;
  object["warmer_K"] = or_null(cell.warmer);
  object["warmer_error_K"] = or_null(cell.warmer_error);
  object["more_V"] = or_null(cell.more_volts);
  return object;
}

Json steps(const checks::StepsBeside& row) {
  Json object;
  object["step"] = row.number;
  object["same_drive"] = row.same_drive;
  object["records"] = Json::array();
  for (const auto& cell : row.records) {
    object["records"].push_back(step(cell));
  }
  return object;
}

Json items(const checks::ItemsBeside& row) {
  Json object;
  object["name"] = row.name;
  object["same_limit"] = row.same_limit;
  object["state_changes"] = row.flips;
  object["records"] = Json::array();
  for (const auto& cell : row.records) {
    if (cell.item == nullptr) {
      object["records"].push_back(nullptr);
      continue;
    }
    Json held = item_json(*cell.item);
    held["later_s"] = or_null(cell.later);
    held["longer_above_s"] = or_null(cell.longer);
    object["records"].push_back(std::move(held));
  }
  return object;
}

}  // namespace

std::string compare_json(const std::vector<Compared>& records) {
  const auto differences = differences_of(records);
  const auto beside = beside_of(records);
  Json object;
  object["schema"] = "ampstair-compare/1";
  object["records"] = Json::array();
  for (const auto& compared : records) {
    object["records"].push_back(record(compared));
  }
  object["same_sheet_text"] = differences.same_text;
  object["sheets_complete"] = differences.complete;
  object["differences"] = Json::array();
  for (const auto& found : differences.found) {
    object["differences"].push_back(difference(found));
  }
  object["steps"] = Json::array();
  for (const auto& row : beside.steps) {
    object["steps"].push_back(steps(row));
  }
  object["items"] = Json::array();
  for (const auto& row : beside.items) {
    object["items"].push_back(items(row));
  }
  object["cautions"] = checks::cautions;
  return object.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace ampstair::post::verbs
