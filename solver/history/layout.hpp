// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace ampstair::history {

/// What a stranger needs to read a dataset.
struct Naming {
  std::string name;       ///< letters, digits and underscores, beginning with a letter
  std::string long_name;  ///< for people
  std::string units;      ///< UDUNITS-2: "degC", "m", "s", "A", "1"; not written for texts
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

/// A table, written at the start of the run or at its end: a group with one dataset per column
/// ("pieces/name", ...) which all share the dimension scale "entry" (0, 1, ...); so no column may
/// be called "entry".
struct Table {
  std::string group;  ///< "pieces", "steps", "watch", "values", "parts", "probes", "grid", ...
  std::string long_name;
  struct Column {
    Naming naming;  ///< name without the group
    std::variant<std::vector<double>, std::vector<std::int64_t>, std::vector<std::string>> values;
  };
  std::vector<Column> columns;
};

/// All that is known before the first row. RECORD_FORMAT.md tells how it is written.
struct Layout {
  std::string title;
  std::string program;  ///< "ampstair 0.1.0", see build_facts()
  std::string commit;
  std::string sheet_text;  ///< word for word
  std::string sheet_name;
  std::string arrangement;
  std::string beyond;  ///< why the march was to go on past its own stops; empty: it was not
  /// An axis called "cell" makes room for fields, see RecordWriter::append_field.
  std::vector<Axis> axes;
  std::vector<Series> series;  ///< "time" [s] is always the first history and not listed here
  std::vector<Table> tables;
};

}  // namespace ampstair::history
