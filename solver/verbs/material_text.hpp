// SPDX-License-Identifier: MIT
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "materials/material.hpp"

namespace ampstair::verbs {

/// One line a material: its part, values at 20 degC, range and what it is.
void print_materials(std::ostream& out, const std::vector<materials::Material>& materials);

/// Everything one material holds: values or tables, bands, ranges, sources, status, marks.
/// @param file where it was read from
void print_material(std::ostream& out, const materials::Material& material,
                    const std::string& file);

}  // namespace ampstair::verbs
