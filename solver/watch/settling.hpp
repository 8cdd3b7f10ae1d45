// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

namespace ampstair::watch {

/// A stretch of a series that is a cubic in time, given by its values at even spacing.
struct CubicPiece {
  double begin = 0.0;                ///< s
  double length = 0.0;               ///< s, > 0
  std::array<double, 4> value = {};  ///< at 0, 1/3, 2/3 and 1 of the length

  [[nodiscard]] double end() const { return begin + length; }
  /// Coefficients in the part of the length: c0 + s (c1 + s (c2 + s c3)).
  [[nodiscard]] std::array<double, 4> coefficients() const;
  [[nodiscard]] double at(double time) const;
  /// Parts of the length, inside (0, 1) and ascending, at which the slope is `slope` per length.
  struct Parts {
    std::array<double, 2> part = {};
    std::size_t count = 0;
  };
  [[nodiscard]] Parts where_slope_is(double slope) const;
};

/// "Equilibrium is reached when the rise changes by less than 1 K in 1 h": IEC 60598-1 12.4.1 and
/// BS 1363-1 (seen). Two readings of one rule.
inline constexpr double settled_rate = 1.0 / 3600.0;  ///< K/s, by the slope of this moment
inline constexpr double settled_change = 1.0;         ///< K, by readings settled_span apart
inline constexpr double settled_span = 3600.0;        ///< s

/// Since when a series changes no faster than a rate.
class SettledByRate {
 public:
  /// @param rate per second
  explicit SettledByRate(double rate) : rate_(rate) {}

  /// @param piece begins where the one before ended
  void add(const CubicPiece& piece);
  /// s, from which on it has held without a break; nothing where it does not hold at the end.
  [[nodiscard]] std::optional<double> since() const { return since_; }
  void restart() { since_.reset(); }

 private:
  double rate_;
  std::optional<double> since_;
};

/// Since when a series differs by less than `change` from itself a span before. Looks back as far
/// as to the piece added first.
class SettledByChange {
 public:
  /// @param change in the unit of the series
  /// @param span s
  SettledByChange(double change, double span) : change_(change), span_(span) {}

  /// @param piece begins where the one before ended
  void add(const CubicPiece& piece);
  /// s, from which on it has held without a break; nothing where it does not hold at the end.
  [[nodiscard]] std::optional<double> since() const { return since_; }
  void restart();

 private:
  void look_back(const CubicPiece& piece, const CubicPiece& before);

  double change_;
  double span_;
  std::vector<CubicPiece> pieces_;
  std::size_t oldest_ = 0;  // first piece that a span still reaches
  std::optional<double> since_;
};

}  // namespace ampstair::watch
