// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

namespace ampstair::materials {

/// A property against temperature: linear between points, constant beyond the first and last.
/// A repeated temperature is a jump. One point: the same at every temperature.
struct Curve {
  std::vector<double> temperature;  ///< K, ascending
  std::vector<double> value;        ///< SI, same length

  [[nodiscard]] bool constant() const { return value.size() <= 1; }
  /// Value at an absolute temperature [K].
  [[nodiscard]] double at(double kelvin) const;
};

/// Where a value comes from; every value a result rests on carries this into the record.
struct Source {
  std::string property;  ///< "conductivity", ...
  std::string document;  ///< document, table, page; "no source given" where the author gave none
  std::string status;    ///< "seen", "from memory", "common practice", "user"
};

/// A material, complete once built, SI.
struct Material {
  std::string name;
  std::string part;            ///< family by which watch items find it: metal, rubber, braid, ...
  Curve conductivity;          ///< W/m/K
  double density = 0.0;        ///< kg/m3
  Curve heat_capacity;         ///< J/kg/K
  double emissivity = 0.9;     ///< of its bare surface
  Curve resistivity;           ///< ohm m; empty for what does not conduct
  double melting_point = 0.0;  ///< K, 0: none given
  double range_low = 0.0;      ///< K: the properties are good from here
  double range_high = 0.0;     ///< K: to here (0: not stated)
  std::vector<Source> sources;
};

}  // namespace ampstair::materials
