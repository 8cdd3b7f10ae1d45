// SPDX-License-Identifier: MIT
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "checks/beside.hpp"
#include "checks/findings.hpp"
#include "checks/histories.hpp"
#include "checks/sheet_differences.hpp"

namespace ampstair::post::verbs {

/// One record of a comparison.
struct Compared {
  std::string name;  ///< as given
  std::unique_ptr<checks::Histories> histories;
  checks::Findings findings;
};

inline checks::SheetDifferences differences_of(const std::vector<Compared>& records) {
  std::vector<const checks::Histories*> all;
  for (const auto& record : records) {
    all.push_back(record.histories.get());
  }
  return checks::sheet_differences(all);
}

/// The result points into the records.
inline checks::Beside beside_of(const std::vector<Compared>& records) {
  std::vector<const checks::Findings*> all;
  for (const auto& record : records) {
    all.push_back(&record.findings);
  }
  return checks::beside(all);
}

}  // namespace ampstair::post::verbs
