// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace ampstair::bench {

/// CPU time of this process, s.
double cpu_seconds();

double median(std::vector<double> values);

/// The processor's own name for itself, and the widest vectors it has.
std::string processor();

/// Bytes per second that a = b + s c moves in a working set of so many bytes, best of some rounds.
double triad_bandwidth(std::size_t working_set);

}  // namespace ampstair::bench
