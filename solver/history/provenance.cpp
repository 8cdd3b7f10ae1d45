// SPDX-License-Identifier: MIT
#include "history/provenance.hpp"

#include <fmt/chrono.h>
#include <hdf5.h>

#include <chrono>

#include "history/build_facts.hpp"

namespace ampstair::history {

BuildFacts build_facts() {
  unsigned major = 0;
  unsigned minor = 0;
  unsigned release = 0;
  H5get_libversion(&major, &minor, &release);
  return {.program = build_program,
          .commit = build_commit,
          .compiler = build_compiler,
          .build = build_kind,
          .hdf5 = fmt::format("{}.{}.{}", major, minor, release)};
}

std::string utc_now() {
  const auto now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(now));
}

}  // namespace ampstair::history
