// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>

namespace ampstair::verbs {

/// Memory that this process takes from now on comes from one stretch of this size [bytes], as long
/// as it suffices, which the system is asked to back by its large pages. Touching memory for the
/// first time is a trap into the kernel for each page: with small pages, 14 000 of them took a
/// seventh of the time of a short run. What is not touched is not taken.
/// @return whether the system and the C library go along; where they do not, nothing is lost
bool ask_for_large_pages(std::size_t bytes);

}  // namespace ampstair::verbs
