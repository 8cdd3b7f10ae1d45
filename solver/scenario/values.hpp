// SPDX-License-Identifier: MIT
#pragma once

#include <set>
#include <string>
#include <vector>

#include "diagnostics/problem.hpp"
#include "materials/library.hpp"
#include "quantities/dimension.hpp"
#include "scenario/run_sheet.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::scenario {

/// Notes every number that goes into a scenario, with its source.
class ValueLog {
 public:
  /// The number's best value; noted where there is one.
  double use(const std::string& path, const sheet::Number& number, quantities::Dimension dimension);
  /// A value that follows from something else: a gauge, a default of the program.
  double use(const std::string& path, double value, quantities::Dimension dimension,
             std::string source, bool by_default);
  /// A material's properties, tables by their value at 20 degC; once for each material.
  void use(const materials::Material& material);

  /// The text of a file read beside the sheet; once for each name.
  void keep(FileRead file);

  [[nodiscard]] std::vector<ValueUsed> taken() const { return values_; }
  [[nodiscard]] std::vector<FileRead> files() const { return files_; }

 private:
  void use_curve(const materials::Material& material, const std::string& property,
                 const materials::Curve& curve, quantities::Dimension dimension);
  void use_property(const materials::Material& material, const std::string& property, double value,
                    quantities::Dimension dimension, const std::string& remark);

  std::vector<ValueUsed> values_;
  std::vector<FileRead> files_;
  std::set<std::string> materials_;
};

/// What building a part of a scenario needs at hand.
struct Building {
  const materials::Library& library;
  diagnostics::ProblemList& problems;
  ValueLog& values;

  /// The material chosen in a sheet; null where there is none, with a Problem where it is at fault.
  /// @param path of the choice, which also names a material written on the spot
  /// @param part what watch items call a material written on the spot, unless it says so itself
  [[nodiscard]] MaterialPtr material(const MaterialChoice& choice, const std::string& path,
                                     const std::string& part) const;
  /// The same, where the word 'nothing' stands for no material.
  [[nodiscard]] MaterialPtr material_or_nothing(const MaterialChoice& choice,
                                                const std::string& path,
                                                const std::string& part) const;
};

}  // namespace ampstair::scenario
