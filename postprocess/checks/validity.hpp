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

/// The first moment [s] from which on the results of a history are not to be used: that of the
/// first flag beyond the model on any part that is read from the same history.
/// @param parts that are read from it
std::optional<double> usable_until(const std::vector<ValidityFlag>& flags,
                                   const std::vector<std::string>& parts);

/// What a flag says, with its moment, value and place.
std::string flag_text(const ValidityFlag& flag);

/// A finding that rests on rows up to the moment from which on they are not to be used, or up to
/// that at which the march stopped: only a crossing before it stands.
void mind_validity(const std::optional<double>& until, const std::vector<ValidityFlag>& flags,
                   ItemFinding& finding);

}  // namespace ampstair::post::checks
