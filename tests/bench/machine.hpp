// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace ampstair::bench {

/// CPU time of this process, s.
double cpu_seconds();

/// Runs a command to its end. @return its CPU time, from its start on, s
/// @throws std::runtime_error when it cannot be started or fails
double cpu_seconds_of(const std::vector<std::string>& command);

double median(std::vector<double> values);

/// The processor's own name for itself, and the widest vectors it has.
std::string processor();

/// Bytes per second that a = b + s c moves in a working set of so many bytes, best of some rounds.
double triad_bandwidth(std::size_t working_set);

}  // namespace ampstair::bench
