// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "marching/events.hpp"
#include "marching/view.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::marching {

/// The temperatures that a scenario's watch items set for the hottest place of a part: limits with
/// the ends of their bands, and char isotherms. A march locates where they are passed. Doses and
/// parts that the run does not have set none.
class Levels {
 public:
  Levels(const HeatNetwork& network, const View& view, const scenario::Scenario& scenario);
  /// Those of other items for the same run; none is kept but by its index.
  Levels(const HeatNetwork& network, const View& view, const scenario::Wire& wire,
         const std::vector<watch::Item>& items);

  struct Level {
    std::size_t part = 0;  ///< which of the parts below
    double kelvin = 0.0;
    std::size_t item = 0;  ///< index into Scenario::watch, or of the items given
    Event::Bound bound = Event::Bound::best;
  };
  [[nodiscard]] const std::vector<Level>& levels() const { return levels_; }
  /// Number of parts that carry levels.
  [[nodiscard]] std::size_t parts() const { return parts_.size(); }
  /// Cells that hottest() reads for a part, ascending.
  [[nodiscard]] const std::vector<std::size_t>& cells(std::size_t part) const {
    return parts_[part].cells;
  }

  struct Hottest {
    double temperature = 0.0;  ///< K
    double position = 0.0;     ///< m along the run
  };
  /// Hottest place of a part, as View gives it.
  /// @param temperature K per cell of the grid, of which only cells(part) are read
  [[nodiscard]] Hottest hottest(std::size_t part, std::span<const double> temperature);

 private:
  enum class Where { conductor, surface, layer_or_body, cells };
  struct Part {
    Where where = Where::conductor;
    std::size_t of_view = 0;  // index into View::parts(), for layer_or_body
    std::vector<std::size_t> cells;
    std::string of_cells = {};          // name, for cells: what a View does not read
    std::vector<double> position = {};  // m per cell, for cells
  };
  void add(const watch::Item& item, std::size_t index);
  [[nodiscard]] bool find(const std::string& name, Part& part) const;
  [[nodiscard]] bool find_cells(const std::string& name, Part& part) const;
  [[nodiscard]] std::size_t number_of(const Part& part);
  void list_cells(Part& part) const;

  const HeatNetwork& network_;
  const View& view_;
  const scenario::Wire& wire_;
  std::vector<Level> levels_;
  std::vector<Part> parts_;
  std::vector<double> places_;  // K at the places of one part
};

}  // namespace ampstair::marching
