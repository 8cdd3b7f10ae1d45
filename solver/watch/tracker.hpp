// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "watch/dose.hpp"
#include "watch/exceedance.hpp"
#include "watch/item.hpp"
#include "watch/state.hpp"

namespace ampstair::watch {

/// One place watched for an item of Kind::above, or for the isotherm of Kind::char_depth. Rows may
/// come as they are marched or as they are read back: the outcome is the same.
class LimitTracker {
 public:
  explicit LimitTracker(const Item& item);

  /// @param time s, not before the one added last
  /// @param temperature K
  void add(double time, double temperature);

  /// Crossed: the best limit was exceeded for the persistence. Near: it was not, but the band's low
  /// end was, or the peak came within near_margin. Cannot say: no number was ever added.
  [[nodiscard]] State state() const;
  [[nodiscard]] const Peak& peak() const { return peak_; }
  [[nodiscard]] const Exceedance& best() const { return best_; }
  [[nodiscard]] const std::optional<Exceedance>& low() const { return low_; }
  [[nodiscard]] const std::optional<Exceedance>& high() const { return high_; }

 private:
  double limit_;
  Peak peak_;
  Exceedance best_;
  std::optional<Exceedance> low_;
  std::optional<Exceedance> high_;
};

/// One place watched for an item of Kind::dose.
class DoseTracker {
 public:
  explicit DoseTracker(const Item& item);

  /// @param time s, not before the one added last
  /// @param temperature K
  void add(double time, double temperature);

  /// Crossed: the full dose was reached with the best activation energy. Near: it was not, but it
  /// was at an end of the energy's band, or would have been with this place near_margin warmer.
  [[nodiscard]] State state() const;
  [[nodiscard]] const Peak& peak() const { return peak_; }
  [[nodiscard]] const ArrheniusDose& best() const { return best_; }
  [[nodiscard]] const std::optional<ArrheniusDose>& low() const { return low_; }
  [[nodiscard]] const std::optional<ArrheniusDose>& high() const { return high_; }

 private:
  Peak peak_;
  ArrheniusDose best_;
  ArrheniusDose warmer_;
  std::optional<ArrheniusDose> low_;
  std::optional<ArrheniusDose> high_;
};

}  // namespace ampstair::watch
