// SPDX-License-Identifier: MIT
#include "verbs/finding_json.hpp"

#include "checks/amounts.hpp"
#include "checks/zero_celsius.hpp"

namespace ampstair::post::verbs {

namespace {

using checks::ItemFinding;
using checks::Spot;
using watch::Item;

Json celsius(const std::optional<double>& kelvin) {
  return kelvin ? Json(*kelvin - celsius_zero) : Json(nullptr);
}

const char* kind_of(const Item& item) {
  switch (item.kind) {
    case Item::Kind::dose:
      return "dose";
    case Item::Kind::char_depth:
      return "char_depth";
    case Item::Kind::above:
      break;
  }
  return "above";
}

Json limit_json(const Item& item) {
  const auto only = [&item](Item::Kind kind, const std::optional<double>& value) {
    return item.kind == kind ? value : std::nullopt;
  };
  using Kind = Item::Kind;
  Json object;
  object["above_degC"] = celsius(only(Kind::above, item.limit));
  object["above_low_degC"] = celsius(only(Kind::above, item.low));
  object["above_high_degC"] = celsius(only(Kind::above, item.high));
  object["persistence_s"] = or_null(only(Kind::above, item.persistence));
  object["activation_energy_J_per_mol"] = or_null(only(Kind::dose, item.activation_energy));
  object["activation_energy_low_J_per_mol"] = or_null(only(Kind::dose, item.energy_low));
  object["activation_energy_high_J_per_mol"] = or_null(only(Kind::dose, item.energy_high));
  object["reference_duration_s"] = or_null(only(Kind::dose, item.reference_duration));
  object["reference_temperature_degC"] = celsius(only(Kind::dose, item.reference_temperature));
  object["char_depth_m"] = or_null(only(Kind::char_depth, item.depth));
  object["isotherm_degC"] = celsius(only(Kind::char_depth, item.isotherm));
  object["from"] = item.from;
  return object;
}

Json longest_json(const ItemFinding& finding) {
  if (!finding.longest || !finding.longest_at) {
    return nullptr;
  }
  Json object;
  object["duration_s"] = *finding.longest;
  put_spot(object, *finding.longest_at);
  return object;
}

Json dose_json(const ItemFinding& finding) {
  if (!finding.dose) {
    return nullptr;
  }
  Json object;
  object["equivalent_s"] = finding.dose->equivalent;
  object["equivalent_with_low_energy_s"] = or_null(finding.dose->low);
  object["equivalent_with_high_energy_s"] = or_null(finding.dose->high);
  object["part_of_full_dose"] = finding.dose->equivalent / finding.item.reference_duration;
  put_spot(object, finding.dose->spot);
  return object;
}

}  // namespace

void put_spot(Json& object, const Spot& spot) {
  object["position_m"] = spot.position;
  object["place"] = spot.name;
}

Json reading_json(const std::optional<checks::Reading>& value) {
  if (!value) {
    return nullptr;
  }
  Json object;
  object["temperature_degC"] = value->temperature - celsius_zero;
  object["error_K"] = or_null(value->error());
  object["time_s"] = value->time;
  put_spot(object, value->spot);
  return object;
}

Json crossing_json(const std::optional<checks::Crossing>& value) {
  if (!value) {
    return nullptr;
  }
  Json object;
  object["time_s"] = value->time;
  object["rose_above_s"] = or_null(value->rose);
  put_spot(object, value->spot);
  object["current_A"] = or_null(value->current);
  object["step"] = or_null(value->step);
  object["error_s"] = or_null(value->error);
  return object;
}

Json heading_json(const checks::Heading& heading) {
  Json object;
  object["title"] = heading.title;
  object["arrangement"] = heading.arrangement;
  object["sheet_name"] = heading.sheet_name;
  object["program"] = heading.program;
  object["commit"] = heading.commit;
  object["created"] = heading.created;
  object["finished"] = heading.finished;
  object["ends_s"] = heading.ends;
  object["planned_end_s"] = heading.planned;
  object["time_error_K"] = or_null(heading.time_error);
  object["grid_error_K"] = or_null(heading.grid_error);
  object["beyond"] = heading.beyond.empty() ? Json(nullptr) : Json(heading.beyond);
  return object;
}

Json step_json(const checks::StepFinding& finding) {
  const bool volts = finding.kind == "hold_voltage";
  Json object;
  object["step"] = finding.number;
  object["kind"] = finding.kind;
  object["level_A"] = volts ? Json(nullptr) : Json(finding.level);
  object["level_V"] = volts ? Json(finding.level) : Json(nullptr);
  object["begin_s"] = finding.begin;
  object["end_s"] = finding.end;
  object["until"] = finding.until.empty() ? Json(nullptr) : Json(finding.until);
  object["settled"] = finding.until.empty() ? Json(nullptr) : Json(finding.settled);
  object["reached"] = finding.reached;
  object["complete"] = finding.complete;
  object["asked_A"] = or_null(finding.asked);
  object["got_A"] = or_null(finding.got);
  object["got_least_A"] = or_null(finding.got_least);
  object["got_greatest_A"] = or_null(finding.got_greatest);
  object["voltage_V"] = or_null(finding.voltage);
  object["power_W"] = or_null(finding.power);
  object["parts"] = Json::array();
  for (const auto& part : finding.parts) {
    Json of_part;
    of_part["part"] = part.part;
    of_part["at_end"] = reading_json(part.at_end);
    of_part["greatest"] = reading_json(part.greatest);
    object["parts"].push_back(std::move(of_part));
  }
  return object;
}

Json item_json(const ItemFinding& finding) {
  Json object;
  object["name"] = finding.item.name;
  object["part"] = finding.item.part;
  object["kind"] = kind_of(finding.item);
  object["limit"] = limit_json(finding.item);
  object["state"] = name_of(finding.state);
  object["mark"] = checks::mark_of(finding.state);
  object["remark"] = finding.remark;
  object["crossing"] = crossing_json(finding.crossing);
  object["crossing_with_low_end"] = crossing_json(finding.with_low);
  object["crossing_with_high_end"] = crossing_json(finding.with_high);
  object["longest_above"] = longest_json(finding);
  object["last_above_s"] = or_null(finding.last_above);
  object["hottest"] = reading_json(finding.hottest);
  object["dose"] = dose_json(finding);
  object["char_depth_m"] = or_null(finding.char_depth);
  return object;
}

}  // namespace ampstair::post::verbs
