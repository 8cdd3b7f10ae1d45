// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "materials/material.hpp"

namespace ampstair::verbs {

/// A material and the file it was read from.
using FiledMaterial = std::pair<materials::Material, std::string>;

/// Everything the materials hold as JSON, in SI: temperatures in K, `unit` on every property, null
/// where there is none. Object: schema "ampstair materials 1", materials: list.
std::string materials_json(const std::vector<FiledMaterial>& materials);

}  // namespace ampstair::verbs
