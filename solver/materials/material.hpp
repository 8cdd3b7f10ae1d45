// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
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
  std::string property;     ///< "conductivity", ...
  std::string document;     ///< document, table, page; "no source given" where the author gave none
  std::string status;       ///< "seen", "from memory", "common practice", "user"
  double range_low = 0.0;   ///< K: this property is good from here
  double range_high = 0.0;  ///< K: to here; both 0: the material's own range holds
};

/// Between which values a property is held to lie, a 90 % band.
struct Band {
  std::string property;      ///< "conductivity", ...
  std::vector<double> low;   ///< SI; one for each point of the property's curve, or for its value
  std::vector<double> high;  ///< SI, same length
  std::string none;  ///< why there is no band, and then the two above are empty: a defined constant
};

/// A temperature above which something happens in the material that a march does not model.
struct Mark {
  double temperature = 0.0;  ///< K
  std::string what;          ///< "tin melts: the coat runs and alloys with the copper"
  std::string source;        ///< document, table, page
  std::string status;        ///< as Source::status
};

/// Breakdown of a covering as one first-order reaction: the share s that is left falls at
/// ds/dt = -s frequency exp(-energy / (R T)), and heat is made as it falls (heat/covering.md).
struct Breakdown {
  double frequency = 0.0;  ///< 1/s
  double energy = 0.0;     ///< J/mol
  double heat = 0.0;       ///< J per kg of the material, made by all of it; below 0: taken
  std::optional<double> conductivity_after;  ///< W/m/K of what has broken down
  double mass_lost = 0.0;                    ///< part of the mass that leaves as gas
};

/// A material, complete once built, SI.
struct Material {
  std::string name;
  std::string about;            ///< what it is, for people; may be empty
  std::string part;             ///< family by which watch items find it: metal, rubber, braid, ...
  Curve conductivity;           ///< W/m/K
  double density = 0.0;         ///< kg/m3
  Curve heat_capacity;          ///< J/kg/K
  double emissivity = 0.9;      ///< of its bare surface
  Curve resistivity;            ///< ohm m; empty for what does not conduct
  double melting_point = 0.0;   ///< K, 0: none given
  double heat_of_fusion = 0.0;  ///< J/kg, taken up at the melting point; 0: none given
  /// kg of water per kg of oven-dry wood. Where given, the material is wood: the curves above are
  /// those of dry wood, which dries and chars once (heat/wood.md).
  std::optional<double> moisture;
  std::optional<Breakdown> breakdown;  ///< where it is known
  double range_low = 0.0;              ///< K: the properties are good from here
  double range_high = 0.0;             ///< K: to here (0: not stated)
  std::vector<Source> sources;
  std::vector<Band> bands;  ///< of those properties that have one, or a reason for having none
  std::vector<Mark> marks;  ///< by ascending temperature
};

}  // namespace ampstair::materials
