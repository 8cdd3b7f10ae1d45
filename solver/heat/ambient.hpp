// SPDX-License-Identifier: MIT
#pragma once

#include "scenario/scenario.hpp"

namespace ampstair::heat {

/// What a face has before it at one moment.
struct Ambient {
  double air = 0.0;    ///< K
  double walls = 0.0;  ///< K
  double speed = 0.0;  ///< m/s of the air

  friend bool operator==(const Ambient&, const Ambient&) = default;
};

/// The entries of the surroundings' histories that hold over a stretch of time without a kink.
struct Prevailing {
  const scenario::AirStep* air = nullptr;
  const scenario::WallStep* walls = nullptr;  ///< null: the walls are as the air

  /// Whether anything changes with time before the next entry.
  [[nodiscard]] bool moves() const;
  [[nodiscard]] Ambient at(double time) const;

  friend bool operator==(const Prevailing&, const Prevailing&) = default;
};

/// Those that hold from a time [s] on: the last that have begun.
Prevailing prevailing_from(const scenario::Surroundings& surroundings, double time);

}  // namespace ampstair::heat
