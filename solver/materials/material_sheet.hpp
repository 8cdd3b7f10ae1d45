// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "diagnostics/problem.hpp"
#include "materials/material.hpp"
#include "sheet/mapping.hpp"

namespace ampstair::materials {

/// The temperatures between which a material's properties are good.
struct RangeSheet {
  sheet::Number from;  ///< K
  sheet::Number to;    ///< K
};

/// A temperature above which something happens that a march does not model.
struct MarkSheet {
  sheet::Place place;
  sheet::Number above;  ///< K
  sheet::Text what;
  sheet::Text from;
  sheet::Text status;
};

/// How a covering breaks down.
struct BreakdownSheet {
  sheet::Place place;
  sheet::Number frequency;           ///< 1/s
  sheet::Number energy;              ///< J/mol
  sheet::Number heat;                ///< J/kg
  sheet::Number conductivity_after;  ///< W/m/K
  sheet::Number mass_lost;           ///< 1
};

/// A material as a run sheet writes it on the spot.
struct MaterialSheet {
  sheet::Place place;
  sheet::Text part;
  sheet::Table conductivity;              ///< W/m/K
  sheet::Number density;                  ///< kg/m3
  sheet::Table heat_capacity;             ///< J/kg/K
  sheet::Number emissivity;               ///< ratio
  sheet::Table resistivity;               ///< ohm m
  sheet::Number temperature_coefficient;  ///< 1/K, of the resistivity at 20 degC
  sheet::Number melting_point;            ///< K
  sheet::Number heat_of_fusion;           ///< J/kg
  std::vector<MarkSheet> marks;
  sheet::Number moisture;  ///< ratio, of wood
  std::optional<BreakdownSheet> breakdown;
  std::optional<RangeSheet> range;
};

/// Where the values of some properties of a library material come from.
struct SourceSheet {
  sheet::Place place;
  std::vector<sheet::Text> of;
  sheet::Text from;
  sheet::Text status;
  sheet::Number band;  ///< ratio: half the width of the band of those values that write none
  sheet::Text no_band;
  std::optional<RangeSheet> range;
};

/// A material as a file of the library holds it: the same keys, and a source for every value.
struct LibrarySheet : MaterialSheet {
  sheet::Text format;
  sheet::Text name;
  sheet::Text about;
  std::vector<SourceSheet> sources;
};

/// The keys of a material written on the spot.
const sheet::Mapping<MaterialSheet>& material_keys();
/// The keys of a covering's breakdown.
const sheet::Mapping<BreakdownSheet>& breakdown_keys();
/// The keys of a library file.
const sheet::Mapping<LibrarySheet>& library_keys();

Breakdown build_breakdown(const BreakdownSheet& sheet);

/// Builds a material written on the spot.
/// @param name how messages and the record call it
/// @param part what watch items call it where the sheet does not say
Material build_material(const MaterialSheet& sheet, const std::string& name,
                        const std::string& part, diagnostics::ProblemList& problems);

/// Builds a library material; every value given needs its source and status (E155) and a
/// band, or the reason why it has none (E154).
Material build_material(const LibrarySheet& sheet, diagnostics::ProblemList& problems);

}  // namespace ampstair::materials
