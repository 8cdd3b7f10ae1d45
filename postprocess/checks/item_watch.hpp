// SPDX-License-Identifier: MIT
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "checks/drive.hpp"
#include "checks/error_bars.hpp"
#include "checks/findings.hpp"
#include "checks/places.hpp"
#include "checks/scan.hpp"
#include "watch/item.hpp"

namespace ampstair::post::checks {

/// What a finding about places needs beside the rows themselves.
struct Ground {
  const Places& places;
  const Drive& drive;
  const ErrorBars& bars;
  const std::string& history;            ///< whose rows they are
  const std::vector<double>& positions;  ///< m, one per place of the history's axis

  [[nodiscard]] Spot spot(std::size_t place) const { return places.spot(positions[place]); }
  /// @param time s, of a row
  [[nodiscard]] Reading reading(double temperature, double time, std::size_t place) const {
    const auto of_grid = bars.of_grid(history, time, place);
    // Where other temperatures have bars, digits that one of time alone allows would mislead.
    const bool lacking = bars.greatest_of_grid() && !of_grid;
    return {temperature, time, spot(place), lacking ? std::nullopt : bars.of_time(), of_grid};
  }
};

/// One watch item over all places of the part it names, fed row by row.
class ItemWatch : public RowTaker {
 public:
  /// Takes the rows of the record's char depths [m] at the same places, where this watch asks for
  /// that depth; else null.
  virtual RowTaker* char_depths() { return nullptr; }
  /// What the rows taken so far say, as though the record ended well there.
  [[nodiscard]] virtual ItemFinding finding(const Ground& ground) const = 0;
};

std::unique_ptr<ItemWatch> watch_for(const watch::Item& item);

}  // namespace ampstair::post::checks
