// SPDX-License-Identifier: MIT
#include "history/history_dataset.hpp"

#include <array>
#include <utility>

#include "diagnostics/contract.hpp"

namespace ampstair::history {

HistoryDataset::HistoryDataset(Handle dataset, std::size_t width, bool scalar, Precision precision)
    : dataset_(std::move(dataset)), width_(width), rank_(scalar ? 1 : 2) {
  if (precision == Precision::single) {
    kept_ = std::vector<float>();
  }
}

void HistoryDataset::keep(std::span<const double> row) {
  diagnostics::expects(row.size() == width_, "a row has one value for each place of its axis");
  std::visit([row](auto& kept) { kept.insert(kept.end(), row.begin(), row.end()); }, kept_);
  ++rows_kept_;
}

void HistoryDataset::write_kept() {
  if (rows_kept_ == 0) {
    return;
  }
  const std::array<hsize_t, 2> extent{rows_written_ + rows_kept_, width_};
  const std::array<hsize_t, 2> start{rows_written_, 0};
  const std::array<hsize_t, 2> count{rows_kept_, width_};
  check(H5Dset_extent(dataset_.id(), extent.data()), "extend a history");
  const Handle file_space(H5Dget_space(dataset_.id()), H5Sclose, "see the shape of a history");
  check(H5Sselect_hyperslab(file_space.id(), H5S_SELECT_SET, start.data(), nullptr, count.data(),
                            nullptr),
        "select rows of a history");
  const Handle memory_space(H5Screate_simple(rank_, count.data(), nullptr), H5Sclose,
                            "make a dataspace");
  std::visit(
      [&](auto& kept) {
        const hid_t type = sizeof(kept[0]) == sizeof(float) ? H5T_NATIVE_FLOAT : H5T_NATIVE_DOUBLE;
        check(H5Dwrite(dataset_.id(), type, memory_space.id(), file_space.id(), H5P_DEFAULT,
                       kept.data()),
              "write rows of a history");
        kept.clear();
      },
      kept_);
  rows_written_ += std::exchange(rows_kept_, 0);
}

}  // namespace ampstair::history
