// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "diagnostics/place.hpp"

namespace ampstair::sheet {

using diagnostics::Place;

/// How a value came to be.
enum class Origin { missing, given, by_default };

/// A number as a sheet gives it, in SI, with its band and where it came from.
struct Number {
  double best = 0.0;
  std::optional<double> low;  ///< with `high`: a 90 % band
  std::optional<double> high;
  std::string from;  ///< the author's source; for a default, the declaration's
  std::string text;  ///< as written ("3/64 in")
  Place place;       ///< of the best value's text; of the enclosing mapping for a default
  Place band_place;  ///< of the low (or else high) value's text
  Origin origin = Origin::missing;
  std::string low_text;  ///< as written
  std::string high_text;
  bool uniform = false;  ///< `shape: uniform`: even between low and high, nothing outside

  [[nodiscard]] bool present() const { return origin != Origin::missing; }
  [[nodiscard]] bool given() const { return origin == Origin::given; }
};

/// A word or name as a sheet gives it.
struct Text {
  std::string value;
  Place place;
  Origin origin = Origin::missing;

  [[nodiscard]] bool present() const { return origin != Origin::missing; }
  [[nodiscard]] bool given() const { return origin == Origin::given; }
};

/// A number, or points of it against temperature (K, ascending; a repeated temperature is a jump).
struct Table {
  struct Point {
    double temperature = 0.0;
    Number value;
  };
  std::vector<Point> points;  ///< one point: the same at every temperature
  Place place;
  Origin origin = Origin::missing;

  [[nodiscard]] bool present() const { return origin != Origin::missing; }
};

}  // namespace ampstair::sheet
