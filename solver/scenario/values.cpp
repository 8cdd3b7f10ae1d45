// SPDX-License-Identifier: MIT
#include "scenario/values.hpp"

#include <algorithm>
#include <utility>

namespace ampstair::scenario {

namespace {

using quantities::Dimension;

constexpr double room_temperature = 293.15;  // K

/// Document and status of a property, for the record.
std::string source_of(const materials::Material& material, const std::string& property) {
  for (const auto& source : material.sources) {
    if (source.property == property) {
      return source.document + " (" + source.status + ")";
    }
  }
  return "no source given";
}

bool is_default(const materials::Material& material, const std::string& property) {
  for (const auto& source : material.sources) {
    if (source.property == property) {
      return source.status == "default";
    }
  }
  return false;
}

}  // namespace

double ValueLog::use(const std::string& path, const sheet::Number& number, Dimension dimension) {
  if (number.present()) {
    const std::string source =
        number.from.empty() && number.given() ? "no source given" : number.from;
    values_.push_back({path, number.best, std::string(quantities::si_unit(dimension)), source,
                       !number.given(), number.low, number.high});
  }
  return number.best;
}

double ValueLog::use(const std::string& path, double value, Dimension dimension, std::string source,
                     bool by_default) {
  values_.push_back({path,
                     value,
                     std::string(quantities::si_unit(dimension)),
                     std::move(source),
                     by_default,
                     {},
                     {}});
  return value;
}

void ValueLog::keep(FileRead file) {
  const bool kept = std::any_of(files_.begin(), files_.end(),
                                [&](const FileRead& other) { return other.name == file.name; });
  if (!kept) {
    files_.push_back(std::move(file));
  }
}

void ValueLog::use_property(const materials::Material& material, const std::string& property,
                            double value, Dimension dimension, const std::string& remark) {
  use("materials/" + material.name + "/" + property, value, dimension,
      source_of(material, property) + remark, is_default(material, property));
}

void ValueLog::use_curve(const materials::Material& material, const std::string& property,
                         const materials::Curve& curve, Dimension dimension) {
  if (!curve.value.empty()) {
    use_property(material, property, curve.at(room_temperature), dimension,
                 curve.constant() ? "" : "; a table, this is its value at 20 degC");
  }
}

void ValueLog::use(const materials::Material& material) {
  if (!materials_.insert(material.name).second) {
    return;
  }
  use_curve(material, "conductivity", material.conductivity, Dimension::conductivity);
  use_property(material, "density", material.density, Dimension::density, "");
  use_curve(material, "heat_capacity", material.heat_capacity, Dimension::heat_capacity);
  use_property(material, "emissivity", material.emissivity, Dimension::ratio, "");
  use_curve(material, "resistivity", material.resistivity, Dimension::resistivity);
  if (material.melting_point > 0.0) {
    use_property(material, "melting_point", material.melting_point, Dimension::temperature, "");
  }
  if (material.heat_of_fusion > 0.0) {
    use_property(material, "heat_of_fusion", material.heat_of_fusion, Dimension::specific_energy,
                 "");
  }
  if (material.breakdown) {
    const auto& b = *material.breakdown;
    const auto note = [&](const char* key, double value, Dimension dimension) {
      use("materials/" + material.name + "/breakdown/" + key, value, dimension,
          source_of(material, "breakdown"), false);
    };
    note("frequency", b.frequency, Dimension::per_second);
    note("energy", b.energy, Dimension::molar_energy);
    note("heat", b.heat, Dimension::specific_energy);
    if (b.conductivity_after) {
      note("conductivity_after", *b.conductivity_after, Dimension::conductivity);
    }
    if (b.mass_lost > 0.0) {
      note("mass_lost", b.mass_lost, Dimension::ratio);
    }
  }
  if (material.moisture) {
    use_property(material, "moisture", *material.moisture, Dimension::ratio, "");
  }
}

MaterialPtr Building::material(const MaterialChoice& choice, const std::string& path,
                               const std::string& part) const {
  MaterialPtr chosen;
  if (choice.mapping) {
    chosen = std::make_shared<const materials::Material>(
        materials::build_material(*choice.mapping, path, part, problems));
  } else if (choice.text.present()) {
    chosen = library.find(choice.text, problems);
  }
  if (chosen) {
    values.use(*chosen);
  }
  return chosen;
}

MaterialPtr Building::material_or_nothing(const MaterialChoice& choice, const std::string& path,
                                          const std::string& part) const {
  return choice.text.value == "nothing" ? nullptr : material(choice, path, part);
}

}  // namespace ampstair::scenario
