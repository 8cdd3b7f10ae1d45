// SPDX-License-Identifier: MIT
#include "history/dataset_reading.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <hdf5_hl.h>

#include <algorithm>
#include <array>
#include <utility>

namespace ampstair::history {

namespace {

// A damaged file may claim any length; nothing a march writes comes near this in one piece.
constexpr hsize_t most_elements = hsize_t{1} << 28U;

Handle type_of(const Handle& dataset, const std::string& path) {
  return {H5Dget_type(dataset.id()), H5Tclose, "see the type of", path};
}

std::vector<hsize_t> shape_of(const Handle& dataset, const std::string& path) {
  const Handle space(H5Dget_space(dataset.id()), H5Sclose, "see the shape of", path);
  const int rank = H5Sget_simple_extent_ndims(space.id());
  check(rank, "see the rank of", path);
  std::vector<hsize_t> shape(static_cast<std::size_t>(rank));
  check(H5Sget_simple_extent_dims(space.id(), shape.data(), nullptr), "see the shape of", path);
  return shape;
}

// Copies the texts and gives the library back what it allocated for them.
std::vector<std::string> take_texts(std::vector<char*>& bytes, hid_t type, hid_t space) {
  std::vector<std::string> texts;
  for (const char* text : bytes) {
    texts.emplace_back(text == nullptr ? "" : text);
  }
  H5Dvlen_reclaim(type, space, H5P_DEFAULT, bytes.data());
  return texts;
}

struct OpenAttribute {
  Handle attribute;
  Handle type;
  Handle space;
  std::size_t count;
};

OpenAttribute open_attribute(hid_t object, const std::string& name) {
  Handle attribute(H5Aopen(object, name.c_str(), H5P_DEFAULT), H5Aclose, "open attribute", name);
  Handle type(H5Aget_type(attribute.id()), H5Tclose, "see the type of attribute", name);
  Handle space(H5Aget_space(attribute.id()), H5Sclose, "see the shape of attribute", name);
  const hssize_t count = H5Sget_simple_extent_npoints(space.id());
  if (count < 1 || count > 64) {
    throw Hdf5Failure(fmt::format("attribute '{}' holds {} values", name, count));
  }
  return {std::move(attribute), std::move(type), std::move(space), static_cast<std::size_t>(count)};
}

template <class Value>
std::vector<Value> attribute_values(const OpenAttribute& open, hid_t type,
                                    const std::string& name) {
  std::vector<Value> values(open.count);
  check(H5Aread(open.attribute.id(), type, values.data()), "read attribute", name);
  return values;
}

std::string attribute_text(const OpenAttribute& open, const std::string& name) {
  if (H5Tis_variable_str(open.type.id()) <= 0 || open.count != 1) {
    throw Hdf5Failure(fmt::format("attribute '{}' is not one text of variable length", name));
  }
  // The file's own type: HDF5 does not convert between ASCII and UTF-8.
  std::vector<char*> bytes(1, nullptr);
  check(H5Aread(open.attribute.id(), open.type.id(), static_cast<void*>(bytes.data())),
        "read attribute", name);
  return take_texts(bytes, open.type.id(), open.space.id()).front();
}

struct Names {
  H5O_type_t wanted;
  std::vector<std::string> found;
};

herr_t keep_name(hid_t group, const char* name, const H5L_info_t* /*link*/, void* names) {
  H5O_info_t info{};
  auto& list = *static_cast<Names*>(names);
  const bool is_wanted =
      H5Oexists_by_name(group, name, H5P_DEFAULT) > 0 &&
      H5Oget_info_by_name2(group, name, &info, H5O_INFO_BASIC, H5P_DEFAULT) >= 0 &&
      info.type == list.wanted;
  if (is_wanted) {
    list.found.emplace_back(name);
  }
  return 0;
}

std::vector<std::string> names_in(hid_t group, H5O_type_t wanted) {
  Names names{wanted, {}};
  if (H5Literate(group, H5_INDEX_CRT_ORDER, H5_ITER_INC, nullptr, keep_name, &names) < 0) {
    names.found.clear();
    check(H5Literate(group, H5_INDEX_NAME, H5_ITER_INC, nullptr, keep_name, &names),
          "list what a group holds");
  }
  return names.found;
}

herr_t keep_scale_name(hid_t /*dataset*/, unsigned /*dimension*/, hid_t scale, void* name) {
  std::array<char, 256> buffer{};
  if (H5Iget_name(scale, buffer.data(), buffer.size()) > 0) {
    *static_cast<std::string*>(name) = buffer.data();
  }
  return 1;  // the first scale will do
}

}  // namespace

bool object_exists(hid_t file, const std::string& path) {
  for (std::size_t end = path.find('/'); end != std::string::npos; end = path.find('/', end + 1)) {
    if (end > 0 && H5Lexists(file, path.substr(0, end).c_str(), H5P_DEFAULT) <= 0) {
      return false;
    }
  }
  return !path.empty() && H5Lexists(file, path.c_str(), H5P_DEFAULT) > 0 &&
         H5Oexists_by_name(file, path.c_str(), H5P_DEFAULT) > 0;
}

std::vector<std::string> dataset_names(hid_t group) {
  return names_in(group, H5O_TYPE_DATASET);
}

std::vector<std::string> group_names(hid_t group) {
  return names_in(group, H5O_TYPE_GROUP);
}

DatasetReading::DatasetReading(hid_t file, std::string path)
    : path_(std::move(path)),
      dataset_(H5Dopen2(file, path_.c_str(), H5P_DEFAULT), H5Dclose, "open dataset", path_),
      type_(type_of(dataset_, path_)),
      shape_(shape_of(dataset_, path_)) {}

bool DatasetReading::holds_numbers() const {
  const H5T_class_t kind = H5Tget_class(type_.id());
  return kind == H5T_FLOAT || kind == H5T_INTEGER;
}

bool DatasetReading::is_single_precision() const {
  return H5Tget_class(type_.id()) == H5T_FLOAT && H5Tget_size(type_.id()) == sizeof(float);
}

void DatasetReading::fault(const std::string& what) const {
  throw Hdf5Failure(fmt::format("dataset '{}' {}", path_, what));
}

void DatasetReading::require_rank(std::size_t rank) const {
  if (shape_.size() != rank) {
    fault(fmt::format("has {} dimensions where {} were expected", shape_.size(), rank));
  }
}

void DatasetReading::require_class(H5T_class_t wanted, const char* called) const {
  if (H5Tget_class(type_.id()) != wanted) {
    fault(fmt::format("does not hold {}", called));
  }
}

std::size_t DatasetReading::elements(hsize_t rows) const {
  hsize_t count = rows;
  for (std::size_t k = 1; k < shape_.size(); ++k) {
    if (shape_[k] != 0 && count > most_elements / shape_[k]) {
      count = most_elements + 1;
      break;
    }
    count *= shape_[k];
  }
  if (count > most_elements) {
    fault(fmt::format("claims the shape ({}), too large to be read at once",
                      fmt::join(shape_, ", ")));
  }
  return static_cast<std::size_t>(count);
}

std::vector<double> DatasetReading::numbers(hsize_t first, hsize_t count) const {
  if (!holds_numbers()) {
    fault("does not hold numbers");
  }
  if (shape_.empty() || first > shape_[0] || count > shape_[0] - first) {
    fault(fmt::format("has the shape ({}): no rows {} to {}", fmt::join(shape_, ", "), first,
                      first + count));
  }
  std::vector<double> values(elements(count));
  if (values.empty()) {
    return values;
  }
  std::vector<hsize_t> start(shape_.size(), 0);
  std::vector<hsize_t> extent = shape_;
  start[0] = first;
  extent[0] = count;
  const Handle space(H5Dget_space(dataset_.id()), H5Sclose, "see the shape of", path_);
  check(H5Sselect_hyperslab(space.id(), H5S_SELECT_SET, start.data(), nullptr, extent.data(),
                            nullptr),
        "select rows of", path_);
  const Handle memory(H5Screate_simple(static_cast<int>(extent.size()), extent.data(), nullptr),
                      H5Sclose, "make a dataspace");
  check(H5Dread(dataset_.id(), H5T_NATIVE_DOUBLE, memory.id(), space.id(), H5P_DEFAULT,
                values.data()),
        "read dataset", path_);
  return values;
}

std::vector<std::int64_t> DatasetReading::integers() const {
  require_rank(1);
  require_class(H5T_INTEGER, "whole numbers");
  std::vector<std::int64_t> values(elements(shape_[0]));
  if (!values.empty()) {
    check(H5Dread(dataset_.id(), H5T_NATIVE_INT64, H5S_ALL, H5S_ALL, H5P_DEFAULT, values.data()),
          "read dataset", path_);
  }
  return values;
}

std::vector<std::string> DatasetReading::texts() const {
  require_class(H5T_STRING, "texts");
  if (H5Tis_variable_str(type_.id()) <= 0) {
    fault("does not hold texts of variable length");
  }
  if (shape_.size() > 1) {
    require_rank(1);
  }
  std::vector<char*> bytes(shape_.empty() ? 1 : elements(shape_[0]), nullptr);
  if (bytes.empty()) {
    return {};
  }
  check(H5Dread(dataset_.id(), type_.id(), H5S_ALL, H5S_ALL, H5P_DEFAULT,
                static_cast<void*>(bytes.data())),
        "read dataset", path_);
  const Handle space(H5Dget_space(dataset_.id()), H5Sclose, "see the shape of", path_);
  return take_texts(bytes, type_.id(), space.id());
}

bool has_attribute(hid_t object, const std::string& name) {
  return H5Aexists(object, name.c_str()) > 0;
}

std::string attribute_as_text(hid_t object, const std::string& name) {
  const OpenAttribute open = open_attribute(object, name);
  switch (H5Tget_class(open.type.id())) {
    case H5T_STRING:
      return attribute_text(open, name);
    case H5T_INTEGER:
      return fmt::format(
          "{}", fmt::join(attribute_values<std::int64_t>(open, H5T_NATIVE_INT64, name), "."));
    case H5T_FLOAT:
      return fmt::format("{}",
                         fmt::join(attribute_values<double>(open, H5T_NATIVE_DOUBLE, name), " "));
    default:
      throw Hdf5Failure(fmt::format("attribute '{}' is neither text nor number", name));
  }
}

double attribute_number(hid_t object, const std::string& name) {
  const OpenAttribute open = open_attribute(object, name);
  if (H5Tget_class(open.type.id()) != H5T_FLOAT || open.count != 1) {
    throw Hdf5Failure(fmt::format("attribute '{}' does not hold one real number", name));
  }
  return attribute_values<double>(open, H5T_NATIVE_DOUBLE, name).front();
}

std::vector<int> attribute_integers(hid_t object, const std::string& name, std::size_t count) {
  const OpenAttribute open = open_attribute(object, name);
  if (H5Tget_class(open.type.id()) != H5T_INTEGER || open.count != count) {
    throw Hdf5Failure(fmt::format("attribute '{}' does not hold {} whole number(s)", name, count));
  }
  return attribute_values<int>(open, H5T_NATIVE_INT, name);
}

std::string scale_name(hid_t dataset, unsigned dimension) {
  std::string name;
  if (H5DSget_num_scales(dataset, dimension) > 0) {
    H5DSiterate_scales(dataset, dimension, nullptr, keep_scale_name, &name);
  }
  return name.starts_with('/') ? name.substr(1) : name;
}

}  // namespace ampstair::history
