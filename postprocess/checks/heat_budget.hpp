// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "checks/findings.hpp"
#include "checks/histories.hpp"

namespace ampstair::post::checks {

/// A flow of heat of a slice of the run.
struct HeatFlow {
  std::string name;    ///< as people say it: "made", "along the wire", "to the air"
  double watts = 0.0;  ///< W per metre of run; > 0 comes in, < 0 stays there or goes
};

/// Where the heat of a slice of the run comes from and goes, at the end of a step.
struct HeatBudget {
  std::size_t step = 0;  ///< number of the staircase step, from 1
  double time = 0.0;     ///< s
  std::string kind;      ///< hottest, probe or piece
  std::string place;     ///< the part that is hottest there, the probe, the piece
  Spot spot;
  double conductor = 0.0;  ///< K
  std::string around;      ///< what lies round the wire there, from inside out; may be empty
  std::string body;        ///< what stands beside it there; may be empty
  // W/m, < 0 where it leaves:
  double from_start = 0.0;  ///< along the wire from the side of the run's start
  double from_end = 0.0;    ///< and of its end
  /// Made, by breakdown, along the wire (both sides together), along what lies round it, stays,
  /// to the air, to the walls around, to what is held, into what stands beside; those that are
  /// nothing left out.
  std::vector<HeatFlow> flows;
  double gap = 0.0;  ///< W/m, what comes in less what stays and goes

  [[nodiscard]] double comes_in() const;  ///< W/m, sum of what comes in
  [[nodiscard]] double goes() const;      ///< W/m, sum of what stays and goes
};

/// The record's table "heat_budget", without rows whose results are not to be used; none in a
/// record from before it was kept.
std::vector<HeatBudget> usable_budgets(const Histories& histories,
                                       const std::vector<ValidityFlag>& flags);

/// The budget of the hottest place of the conductor in a step (from 1), or none (null).
const HeatBudget* hottest_budget(const std::vector<HeatBudget>& budgets, std::size_t step);

/// The step (from 1) at whose end the conductor is hottest of all; 0 without budgets.
std::size_t hottest_step(const std::vector<HeatBudget>& budgets);

/// "Of 11.0 W/m, 100 % is made there; 61 % goes to the air, 38 % to the walls around." Flows below
/// half a per cent are left out.
std::string budget_text(const HeatBudget& budget);

/// What makes a place differ from the others of its step: how much more is made there than in the
/// middle of most pieces, what heat has to pass on its way out, what comes along the wire.
std::string why_text(const HeatBudget& budget, const std::vector<HeatBudget>& budgets);

/// "drop", "hottest conductor", "probe TC1".
std::string place_text(const HeatBudget& budget);

}  // namespace ampstair::post::checks
