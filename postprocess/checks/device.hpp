// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "checks/findings.hpp"
#include "checks/histories.hpp"

namespace ampstair::post::checks {

/// Limits that an overcurrent device is stated to keep.
struct Device {
  std::string kind;
  double rating = 0.0;              ///< A
  std::optional<double> must_hold;  ///< multiple of the rating it carries for good
  struct Opening {
    double times = 0.0;   ///< of the rating
    double within = 0.0;  ///< s
  };
  std::vector<Opening> must_open;  ///< ascending multiples
  std::string source;
};

/// When a device that keeps its limits may open and has to have opened, by the current of a record.
/// That it did open is nothing a model can say.
struct OpeningEnvelope {
  std::optional<double> earliest;  ///< s; before, the current was within what it has to hold
  std::optional<double> latest;    ///< s; by then a stated opening time had run out
  std::optional<Device::Opening> by = std::nullopt;  ///< which it was
};

/// The device a record carries; none where its run sheet names none.
std::optional<Device> stored_device(const Histories& histories);

/// An opening time runs while the current is at its multiple or above without a break.
/// @param times s, ascending; two of one moment are a jump
/// @param current A, linear between
OpeningEnvelope envelope(const Device& device, const std::vector<double>& times,
                         const std::vector<double>& current);

/// The same by the rows of a record; where a step of the staircase begins, its current does.
OpeningEnvelope envelope(const Device& device, const Histories& histories);

/// How a crossing stands to the envelope.
enum class Order {
  device_first,  ///< a device within its limits has opened before
  not_required,  ///< it need not have opened by then
  cannot_have,   ///< it had no reason to open before
  cannot_say     ///< the two are closer than they are known
};

/// @param crossing s
/// @param slack s, how well the crossing is known
Order order(const OpeningEnvelope& envelope, double crossing, double slack);

}  // namespace ampstair::post::checks
