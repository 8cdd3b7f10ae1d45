// SPDX-License-Identifier: MIT
#pragma once

// Inside history/ only.

#include <cstddef>
#include <span>
#include <variant>
#include <vector>

#include "history/handle.hpp"
#include "history/layout.hpp"

namespace ampstair::history {

/// A growing dataset, rows along its first dimension, and the rows not handed to HDF5 yet.
class HistoryDataset {
 public:
  /// @param dataset of shape (rows, width), or (rows) if `scalar` (width 1)
  HistoryDataset(Handle dataset, std::size_t width, bool scalar, Precision precision);

  void keep(std::span<const double> row);
  /// Appends the kept rows to the dataset.
  void write_kept();

 private:
  Handle dataset_;
  hsize_t width_;
  int rank_;
  hsize_t rows_kept_ = 0;
  hsize_t rows_written_ = 0;
  std::variant<std::vector<double>, std::vector<float>> kept_;
};

}  // namespace ampstair::history
