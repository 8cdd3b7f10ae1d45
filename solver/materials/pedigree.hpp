// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>
#include <vector>

#include "materials/material_sheet.hpp"

namespace ampstair::materials {

/// A key that holds a property: what is asked for its source and its band.
struct Property {
  std::string_view key;
  sheet::Origin origin;
  sheet::Place place;
  std::vector<sheet::Number> values;  ///< the points of a table, or the one value
};

/// The properties of a sheet, those it does not give included.
std::vector<Property> properties(const MaterialSheet& sheet);

/// Notes where the value of a material written on the spot comes from, if it has one.
void add_source(Material& material, const Property& property);
/// Notes the band that the values themselves write, if they do.
void add_band(Material& material, const Property& property);

/// The marks of a sheet by ascending temperature.
std::vector<Mark> build_marks(const MaterialSheet& sheet);

/// A range that ends before it begins is an error (E158).
void check_range(const RangeSheet& range, diagnostics::ProblemList& problems);

/// Gives a library material its sources and bands. Every value needs a source (E155) and a band or
/// the reason for having none (E154), every mark a source and a status (E155), and no source may be
/// stated for what the file does not give (E156).
void read_pedigree(const LibrarySheet& sheet, Material& material,
                   diagnostics::ProblemList& problems);

}  // namespace ampstair::materials
