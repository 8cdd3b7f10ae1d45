// SPDX-License-Identifier: MIT
#include "verbs/material_json.hpp"

#include <nlohmann/json.hpp>

#include "materials/property_values.hpp"

namespace ampstair::verbs {

namespace {

using Json = nlohmann::ordered_json;
using materials::Material;
using materials::PropertyValues;

Json range(double low, double high) {
  return high > low ? Json{low, high} : Json(nullptr);
}

Json points(const PropertyValues& property) {
  Json list = Json::array();
  const auto& curve = property.curve;
  const bool has_band = property.band != nullptr && !property.band->low.empty();
  for (std::size_t i = 0; i < curve.value.size(); ++i) {
    Json point;
    point["temperature_K"] = curve.constant() ? Json(nullptr) : Json(curve.temperature[i]);
    point["value"] = curve.value[i];
    point["low"] = has_band ? Json(property.band->low[i]) : Json(nullptr);
    point["high"] = has_band ? Json(property.band->high[i]) : Json(nullptr);
    list.push_back(std::move(point));
  }
  return list;
}

Json property(const PropertyValues& values) {
  Json object;
  object["property"] = values.key;
  object["unit"] = quantities::si_unit(values.dimension);
  object["points"] = points(values);
  const bool reasoned = values.band != nullptr && !values.band->none.empty();
  object["no_band"] = reasoned ? Json(values.band->none) : Json(nullptr);
  object["sources"] = Json::array();
  for (const auto& source : values.sources) {
    object["sources"].push_back({{"from", source.document},
                                 {"status", source.status},
                                 {"range_K", range(source.range_low, source.range_high)}});
  }
  return object;
}

Json material(const FiledMaterial& filed) {
  const auto& [held, file] = filed;
  Json object;
  object["name"] = held.name;
  object["part"] = held.part;
  object["about"] = held.about;
  object["file"] = file;
  object["range_K"] = range(held.range_low, held.range_high);
  object["properties"] = Json::array();
  for (const auto& values : materials::property_values(held)) {
    object["properties"].push_back(property(values));
  }
  object["marks"] = Json::array();
  for (const auto& mark : held.marks) {
    object["marks"].push_back({{"above_K", mark.temperature},
                               {"what", mark.what},
                               {"from", mark.source},
                               {"status", mark.status}});
  }
  return object;
}

}  // namespace

std::string materials_json(const std::vector<FiledMaterial>& materials) {
  Json object;
  object["schema"] = "ampstair materials 1";
  object["materials"] = Json::array();
  for (const auto& filed : materials) {
    object["materials"].push_back(material(filed));
  }
  return object.dump(2);
}

}  // namespace ampstair::verbs
