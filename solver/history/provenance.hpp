// SPDX-License-Identifier: MIT
#pragma once

#include <string>

namespace ampstair::history {

/// What is known of the program that writes a record.
struct BuildFacts {
  std::string program;   ///< "ampstair 0.1.0"
  std::string commit;    ///< git commit, "-dirty" after it if files were changed; or "unknown"
  std::string compiler;  ///< "GNU 12.2.0"
  std::string build;     ///< CMake's kind of build: "RelWithDebInfo"
  std::string hdf5;      ///< version of the HDF5 library in use: "1.10.8"
};

BuildFacts build_facts();

/// Now, as ISO 8601 in UTC to the second: "2025-01-31T18:05:00Z".
std::string utc_now();

}  // namespace ampstair::history
