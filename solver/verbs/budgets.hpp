// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "history/layout.hpp"
#include "marching/heat_budget.hpp"
#include "marching/march.hpp"
#include "marching/view.hpp"

namespace ampstair::verbs {

/// Where the heat goes at the places a sheet makes worth asking for, at the end of every step of
/// the staircase: the hottest place of the conductor, of the surface and of every part that is
/// watched, the probes, and the middle of every piece; and in the bodies beside the wire.
class Budgets {
 public:
  Budgets(const scenario::Scenario& scenario, marching::HeatNetwork& network,
          const marching::View& view);

  /// Takes the budgets of a moment at which a step ends.
  void take(const marching::Moment& moment);

  /// The tables heat_budget and body_budget of the moments taken so far.
  [[nodiscard]] std::vector<history::Table> tables() const;

 private:
  struct Place {
    std::string kind;  // hottest, probe, piece
    std::string name;
    std::size_t station = 0;
  };
  template <class Budget>
  struct At {
    std::int64_t step = 0;
    double time = 0.0;  // s
    Place place;
    Budget budget;
  };
  using Slice = At<marching::SliceBudget>;
  using Body = At<marching::BodyBudget>;

  [[nodiscard]] std::vector<Place> hottest_places(const marching::Moment& moment) const;
  [[nodiscard]] history::Table slices_table() const;
  [[nodiscard]] history::Table bodies_table() const;

  const marching::View& view_;
  marching::HeatBudget budget_;
  std::vector<std::size_t> watched_;  // parts of the view
  std::vector<Place> fixed_;          // probes and pieces
  std::vector<Slice> slices_;
  std::vector<Body> bodies_;
};

}  // namespace ampstair::verbs
