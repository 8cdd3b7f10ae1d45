// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "diagnostics/problem.hpp"
#include "materials/material.hpp"
#include "sheet/value.hpp"

namespace ampstair::materials {

/// Materials by name, one file each: `rubber-aged-soft` is read from rubber-aged-soft.yaml when it
/// is first asked for. Earlier folders win over later ones.
class Library {
 public:
  explicit Library(std::vector<std::filesystem::path> folders);

  /// The library for a run sheet: `materials/` beside the sheet first, then the folder named by the
  /// environment variable AMPSTAIR_MATERIALS, or without it the library shipped with the program.
  static Library beside(const std::filesystem::path& sheet);

  /// A material by the name written in a sheet; null with a Problem (E120 with the nearest names,
  /// or the faults of its file) where there is none.
  [[nodiscard]] std::shared_ptr<const Material> find(const sheet::Text& name,
                                                     diagnostics::ProblemList& problems) const;

  [[nodiscard]] std::vector<std::string> names() const;
  /// Where a material of that name is read from; empty where there is none.
  [[nodiscard]] std::filesystem::path file(const std::string& name) const;

 private:
  [[nodiscard]] std::shared_ptr<const Material> read(const std::string& name,
                                                     diagnostics::ProblemList& problems) const;

  std::map<std::string, std::filesystem::path> files_;
  mutable std::map<std::string, std::shared_ptr<const Material>> read_;  // cache, not thread-safe
};

}  // namespace ampstair::materials
