// SPDX-License-Identifier: MIT
#include "materials/pedigree.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>

namespace ampstair::materials {

namespace {

using diagnostics::ProblemList;
using sheet::Number;
using sheet::Origin;

Property property(std::string_view key, const Number& number) {
  return {key, number.origin, number.place, {number}};
}

Property property(std::string_view key, const sheet::Table& table) {
  Property made{key, table.origin, table.place, {}};
  for (const auto& point : table.points) {
    made.values.push_back(point.value);
  }
  return made;
}

/// A breakdown belongs together; its heat stands for it.
Property breakdown(const MaterialSheet& sheet) {
  Property made = property("breakdown", sheet.breakdown ? sheet.breakdown->heat : Number{});
  if (sheet.breakdown) {
    made.place = sheet.breakdown->place;
  }
  return made;
}

bool has_band(const Number& number) {
  return number.low.has_value() && number.high.has_value();
}

/// What a resistivity of one value stands for beside a temperature coefficient: its line's ends.
const Curve* line_of(const Material& material, const Property& property) {
  const bool line = property.key == "resistivity" && property.values.size() == 1 &&
                    material.resistivity.value.size() > 1;
  return line ? &material.resistivity : nullptr;
}

/// The band of one property: what its values write, else `part` of each value up and down.
Band band_of(const Material& material, const Property& property, double part) {
  Band band;
  band.property = property.key;
  for (const auto& value : property.values) {
    band.low.push_back(has_band(value) ? *value.low : value.best * (1.0 - part));
    band.high.push_back(has_band(value) ? *value.high : value.best * (1.0 + part));
  }
  if (const Curve* line = line_of(material, property)) {
    const double low = band.low.front() / property.values.front().best;
    const double high = band.high.front() / property.values.front().best;
    band.low.clear();
    band.high.clear();
    for (const double value : line->value) {
      band.low.push_back(low * value);
      band.high.push_back(high * value);
    }
  }
  return band;
}

const Number* first_without_band(const Property& property) {
  const auto found = std::find_if_not(property.values.begin(), property.values.end(), has_band);
  return found == property.values.end() ? nullptr : &*found;
}

/// The source that speaks for a property; the first where there are several.
const SourceSheet* source_of(const LibrarySheet& sheet, std::string_view key) {
  for (const auto& source : sheet.sources) {
    for (const auto& of : source.of) {
      if (of.value == key) {
        return &source;
      }
    }
  }
  return nullptr;
}

void read_band(const Property& property, const SourceSheet& source, Material& material,
               ProblemList& problems) {
  const Number* bare = first_without_band(property);
  if (bare == nullptr || source.band.given()) {
    material.bands.push_back(band_of(material, property, source.band.best));
  } else if (source.no_band.given()) {
    material.bands.push_back({std::string(property.key), {}, {}, source.no_band.value});
  } else {
    problems.error("E154", bare->place,
                   fmt::format("'{}' of '{}' has no band; a library value says how far it may be "
                               "off.",
                               property.key, material.name),
                   "write  {best: ..., low: ..., high: ...}, or add  band: 10 %  (or  no_band: and "
                   "why) to its source");
  }
}

void read_sources(const LibrarySheet& sheet, const std::vector<Property>& known, Material& material,
                  ProblemList& problems) {
  for (const auto& source : sheet.sources) {
    if (source.range) {
      check_range(*source.range, problems);
    }
    if (source.band.given() && source.no_band.given()) {
      problems.error("E154", source.no_band.place, "a source states a band and that there is none.",
                     "leave one of the two out");
    }
    for (const auto& of : source.of) {
      const bool found = std::any_of(known.begin(), known.end(), [&](const Property& property) {
        return property.key == of.value && property.origin == Origin::given;
      });
      if (!found) {
        problems.error(
            "E156", of.place,
            fmt::format("a source is stated for '{}', which this material does not give.",
                        of.value),
            "name keys that stand in this file");
      }
      material.sources.push_back({of.value, source.from.value, source.status.value,
                                  source.range ? source.range->from.best : 0.0,
                                  source.range ? source.range->to.best : 0.0});
    }
  }
}

void check_marks(const LibrarySheet& sheet, ProblemList& problems) {
  for (const auto& mark : sheet.marks) {
    if (!mark.from.given() || !mark.status.given()) {
      problems.error("E155", mark.place,
                     fmt::format("a mark of '{}' has no {}; a library figure is only as good as "
                                 "where it comes from.",
                                 sheet.name.value, mark.from.given() ? "status" : "source"),
                     "add  from: ..., status: ...");
    }
  }
}

}  // namespace

std::vector<Property> properties(const MaterialSheet& sheet) {
  return {property("conductivity", sheet.conductivity),
          property("density", sheet.density),
          property("heat_capacity", sheet.heat_capacity),
          property("emissivity", sheet.emissivity),
          property("resistivity", sheet.resistivity),
          property("temperature_coefficient", sheet.temperature_coefficient),
          property("melting_point", sheet.melting_point),
          property("heat_of_fusion", sheet.heat_of_fusion),
          property("moisture", sheet.moisture),
          breakdown(sheet)};
}

void add_source(Material& material, const Property& property) {
  if (property.origin == Origin::missing || property.values.empty()) {
    return;
  }
  const Number& first = property.values.front();
  material.sources.push_back({std::string(property.key),
                              first.from.empty() ? "no source given" : first.from,
                              first.given() ? "user" : "default"});
}

void add_band(Material& material, const Property& property) {
  if (std::any_of(property.values.begin(), property.values.end(), has_band)) {
    material.bands.push_back(band_of(material, property, 0.0));
  }
}

std::vector<Mark> build_marks(const MaterialSheet& sheet) {
  std::vector<Mark> marks;
  for (const auto& mark : sheet.marks) {
    marks.push_back({mark.above.best, mark.what.value,
                     mark.from.given() ? mark.from.value : "no source given",
                     mark.status.given() ? mark.status.value : "user"});
  }
  std::stable_sort(marks.begin(), marks.end(),
                   [](const Mark& a, const Mark& b) { return a.temperature < b.temperature; });
  return marks;
}

void check_range(const RangeSheet& range, ProblemList& problems) {
  if (range.from.present() && range.to.present() && range.from.best >= range.to.best) {
    problems.error("E158", range.to.place, "the range ends before it begins.",
                   "give the lower temperature as 'from', the higher as 'to'");
  }
}

void read_pedigree(const LibrarySheet& sheet, Material& material, ProblemList& problems) {
  const auto known = properties(sheet);
  read_sources(sheet, known, material, problems);
  check_marks(sheet, problems);
  for (const auto& property : known) {
    if (property.origin != Origin::given) {
      add_source(material, property);  // a default of the program has the program's own reason
      continue;
    }
    const SourceSheet* source = source_of(sheet, property.key);
    if (source == nullptr) {
      problems.error(
          "E155", property.place,
          fmt::format("'{}' of '{}' has no source; a library value is only as good as "
                      "where it comes from.",
                      property.key, material.name),
          fmt::format("add  - {{of: [{}], from: ..., status: ...}}  below sources", property.key));
    } else {
      read_band(property, *source, material, problems);
    }
  }
}

}  // namespace ampstair::materials
