// SPDX-License-Identifier: MIT
#pragma once

// CONTRACT FOR PARALLEL WORK between verbs/run (writer's caller), history/ and postprocess/.

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace ampstair::history {

/// Name of one column or dataset with what a stranger needs to read it.
struct Naming {
  std::string name;       ///< HDF5 path, e.g. "conductor_temperature" or "pieces/begin"
  std::string long_name;  ///< for people
  std::string units;      ///< UDUNITS-2: "degC", "m", "s", "A", "1"
};

/// A fixed axis (a dimension scale), e.g. positions along the run.
struct Axis {
  Naming naming;
  std::vector<double> values;
};

enum class Precision { single, full };

/// A history: one row per output time. Without an axis, one number per row.
struct Series {
  Naming naming;
  std::string axis;  ///< name of an Axis, empty for a scalar history
  Precision precision = Precision::full;
};

/// A table fixed at the start of the run, one dataset per column below a group: "pieces/name", ...
struct Table {
  std::string group;      ///< "pieces", "steps", "watch", "values", "parts", "probes", "grid"
  std::string long_name;
  struct Column {
    Naming naming;  ///< name without the group
    std::variant<std::vector<double>, std::vector<std::int64_t>, std::vector<std::string>> values;
  };
  std::vector<Column> columns;
};

/// All that is known before the first row.
struct Layout {
  std::string title;
  std::string program;      ///< "ampstair 0.1.0"
  std::string commit;
  std::string sheet_text;   ///< word for word
  std::string sheet_name;
  std::string arrangement;
  std::vector<Axis> axes;
  std::vector<Series> series;  ///< "time" [s] is always the first history and not listed here
  std::vector<Table> tables;
};

}  // namespace ampstair::history
