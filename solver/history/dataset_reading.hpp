// SPDX-License-Identifier: MIT
#pragma once

// Inside history/ only: reads that expect nothing of a file and throw Hdf5Failure, naming the
// object, wherever it is not what RECORD_FORMAT.md says.

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "history/handle.hpp"

namespace ampstair::history {

/// Whether a dataset, group or link chain `path` leads to an object.
bool object_exists(hid_t file, const std::string& path);

/// Names of the datasets, or of the groups, in a group, in the order they were made if the file
/// kept it.
std::vector<std::string> dataset_names(hid_t group);
std::vector<std::string> group_names(hid_t group);

/// A dataset and what it is called in messages.
class DatasetReading {
 public:
  DatasetReading(hid_t file, std::string path);

  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] hid_t id() const { return dataset_.id(); }
  /// Lengths of the dimensions.
  [[nodiscard]] const std::vector<hsize_t>& shape() const { return shape_; }
  [[nodiscard]] bool holds_numbers() const;
  [[nodiscard]] bool is_single_precision() const;

  void require_rank(std::size_t rank) const;
  /// Elements [first, first + count) along the first dimension, whole along the others.
  [[nodiscard]] std::vector<double> numbers(hsize_t first, hsize_t count) const;
  [[nodiscard]] std::vector<std::int64_t> integers() const;
  [[nodiscard]] std::vector<std::string> texts() const;

 private:
  [[noreturn]] void fault(const std::string& what) const;
  void require_class(H5T_class_t wanted, const char* called) const;
  [[nodiscard]] std::size_t elements(hsize_t rows) const;

  std::string path_;
  Handle dataset_;
  Handle type_;
  std::vector<hsize_t> shape_;
};

bool has_attribute(hid_t object, const std::string& name);

/// A text as it is; numbers in their shortest spelling, several joined by dots: {1, 0} is "1.0".
std::string attribute_as_text(hid_t object, const std::string& name);

/// @throws Hdf5Failure unless the attribute holds one real number
double attribute_number(hid_t object, const std::string& name);

/// @throws Hdf5Failure unless the attribute holds `count` whole numbers
std::vector<int> attribute_integers(hid_t object, const std::string& name, std::size_t count);

/// Name of the dimension scale attached to a dimension, without the leading "/"; "" if none.
std::string scale_name(hid_t dataset, unsigned dimension);

}  // namespace ampstair::history
