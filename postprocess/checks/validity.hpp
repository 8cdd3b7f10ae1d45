// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "checks/findings.hpp"
#include "checks/histories.hpp"
#include "checks/places.hpp"

namespace ampstair::post::checks {

/// The record's table "validity", in the order of time; none in a record from before it was kept.
std::vector<ValidityFlag> stored_flags(const Histories& histories, const Places& places);

/// The first moment [s] from which on the results of a history are not told: that of the first flag
/// beyond the model on any part that is read from the same history; none where the run sheet gives
/// a reason to go on.
/// @param parts that are read from it
std::optional<double> usable_until(const std::vector<ValidityFlag>& flags,
                                   const std::vector<std::string>& parts);

/// The same for the first moment beyond the model, whether its results are told or not.
std::optional<double> held_until(const std::vector<ValidityFlag>& flags,
                                 const std::vector<std::string>& parts);

/// What a flag says, with its moment, value and place.
std::string flag_text(const ValidityFlag& flag);

/// A finding on a part that comes to be beyond the model at `until` [s], or whose march stopped:
/// only a crossing stands; one past that moment is told as such.
void mind_validity(const std::optional<double>& until, const std::vector<ValidityFlag>& flags,
                   ItemFinding& finding);

}  // namespace ampstair::post::checks
