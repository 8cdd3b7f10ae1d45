// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "checks/findings.hpp"

// Answers of several records on one clock; every difference is against the first record's.

namespace ampstair::post::checks {

/// One step of one record, by its hottest conductor. There is no difference unless both records
/// hold the step to its end.
struct StepBeside {
  const StepFinding* step = nullptr;  ///< null where the record has no such step
  const Reading* hottest = nullptr;   ///< of the conductor at the end of the step
  bool at_end = false;           ///< and that is the end of the step: the results do not end before
  std::optional<double> warmer;  ///< K against the first record
  std::optional<double> warmer_error;  ///< K, both bars together; none without bars
  std::optional<double> more_volts;    ///< V over the wire, against the first record
};

/// One watch item of one record.
struct ItemBeside {
  const ItemFinding* item = nullptr;  ///< null where the record has no item of that name
  std::optional<double> later;        ///< s, of the crossing against the first record's
  /// s, of the longest time above; none where the results of one end before the other's.
  std::optional<double> longer;
};

struct StepsBeside {
  std::size_t number = 0;  ///< from 1
  std::vector<StepBeside> records;
  bool same_drive = true;  ///< all ask the same in the same minutes
};

struct ItemsBeside {
  std::string name;
  std::vector<ItemBeside> records;
  bool same_limit = true;  ///< all watch the same part for the same limit
  bool flips = false;      ///< the states are not all the same
};

struct Beside {
  std::vector<StepsBeside> steps;
  std::vector<ItemsBeside> items;  ///< by name, those of the first record first
};

/// @param findings one a record, at least one; the result points into them
Beside beside(const std::vector<const Findings*>& findings);

}  // namespace ampstair::post::checks
