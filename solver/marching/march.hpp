// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>

#include "marching/events.hpp"
#include "marching/flag.hpp"
#include "marching/network.hpp"
#include "marching/stepper.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::marching {

/// The state at one moment, handed to an observer.
struct Moment {
  double time = 0.0;                    ///< s
  std::size_t step = 0;                 ///< index into Scenario::staircase
  bool step_ends = false;               ///< the last moment of the step
  bool regular = true;                  ///< t = 0, an output time or a step's end; else an event
  std::span<const double> temperature;  ///< K per cell of the grid (see Observer::reads)
  /// Part broken down, 0 to 1, of each of HeatNetwork::reactions().
  std::span<const double> converted;
  Electrical electrical;
  double power = 0.0;  ///< W made in the wire and its joints
  Ledger ledger;
};

class Levels;
class Validity;
class WoodContacts;

/// Receives the march; a march opens no file and prints nothing.
class Observer {
 public:
  virtual ~Observer() = default;
  /// Called at t = 0, at every output time, at the end of every step of the staircase, and where a
  /// level of a watch item is passed, the supply meets or leaves its ceiling, covering is gone, or
  /// the conductor begins to melt or parts: where it parts or covering is gone twice, before and
  /// after. Times never decrease.
  virtual void moment(const Moment& moment) = 0;
  /// Cells that moment() reads but at the ends of steps and where the march begins: only these are
  /// worked out then, the others hold what they held before. None: all. The conductor and the side
  /// bodies have to be among them.
  [[nodiscard]] virtual std::span<const Stretch> reads() const { return {}; }
  /// Called for everything located inside the steps. Passings, the ceiling and melting come after
  /// the moment of their time; what a phase brings at its very begin has no moment of its own.
  /// Settling comes at the end of its step of the staircase, after later events.
  virtual void event(const Event& /*event*/) {}
  /// Called for what the guard of validity finds, after the moments of its time step.
  virtual void flag(const Flag& /*flag*/) {}
  /// Called after every time step.
  /// @return false to stop the march here
  virtual bool advanced(double time) = 0;
};

/// How a march went.
struct Summary {
  std::size_t steps = 0;
  std::size_t rejected = 0;
  std::size_t cells = 0;
  std::size_t looks = 0;        ///< states looked at inside steps, to locate events
  double end_time = 0.0;        ///< s
  double error_estimate = 0.0;  ///< K, largest estimated error of one time step
  enum class Ending {
    complete,
    validity_ends,  ///< a limit is met at which a staircase stops (see Validity)
    stopped_by_observer,
    step_too_short  ///< the temperatures cannot be followed any further
  } ending = Ending::complete;
  std::optional<Event> covering_gone;  ///< where the covering of some place is first gone
  std::optional<Event> melts;          ///< where the conductor first begins to melt
  std::optional<Event> parts;          ///< where it first parts
};

/// Marches a scenario through its staircase. Adaptive; restarted at every step of the staircase, at
/// every change of the surroundings, where the supply meets or leaves its ceiling, where covering
/// is gone, and where the conductor begins to melt and parts, all of which are ends of time steps.
/// A parted conductor carries no current until a step of the staircase says that it is rejoined.
/// @param levels what to locate the passing of, or null; no temperature of a moment depends on it
/// @param contacts kept up to every moment before the observer is told of it, or null
/// @param validity what tells where the model no longer holds and may end the march there, or null;
///        no temperature of a moment depends on it
Summary march(const scenario::Scenario& scenario, HeatNetwork& network, Observer& observer,
              Levels* levels = nullptr, WoodContacts* contacts = nullptr,
              Validity* validity = nullptr);
/// The same with a stepper that has been laid out for the network before: what it takes to lay one
/// out is then not spent for every march. A network that has lost covering cannot march again.
Summary march_again(const scenario::Scenario& scenario, HeatNetwork& network, Stepper& stepper,
                    Observer& observer);

}  // namespace ampstair::marching
