// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <limits>
#include <optional>

namespace ampstair::marching {

/// A time between two moments is located on the continuous extension of a time step to this, s.
inline constexpr double located_within = 1e-3;

/// Something that happened at one time, located inside a time step.
struct Event {
  enum class Kind {
    rises_above,      ///< the hottest place of a part passes a level of a watch item
    falls_below,      ///< it is no longer above it
    ceiling_met,      ///< the supply gives less than the current asked, at its voltage limit
    ceiling_left,     ///< it gives the current asked again
    covering_gone,    ///< the covering of some place is burnt off or fallen away: it is bare
    conductor_melts,  ///< its hottest place reaches the melting point
    conductor_parts,  ///< a place has taken up its heat of fusion, or none is given: the loop opens
    step_settled,     ///< the rule holds that ends this step of the staircase: it ends here
    settled_by_rate,  ///< from here to the end of the step of the staircase the hottest of the
                      ///< conductor changes by less than watch::settled_rate
    settled_by_hour   ///< from here to that end it is within watch::settled_change of what it was
                      ///< watch::settled_span before
  };
  enum class Bound { best, low, high };

  Kind kind = Kind::rises_above;
  double time = 0.0;                ///< s
  std::size_t step = 0;             ///< index into Scenario::staircase
  std::optional<std::size_t> item;  ///< index into Scenario::watch; only for levels
  Bound bound = Bound::best;        ///< which end of the item's band; only for levels
  /// K, hottest place of the item's part, else of the conductor; of a covering that is gone: of its
  /// outside, at the place that counts.
  double temperature = 0.0;
  double position = std::numeric_limits<double>::quiet_NaN();  ///< m along the run, of that place
  double current = 0.0;                                        ///< A
};

}  // namespace ampstair::marching
