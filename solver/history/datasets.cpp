// SPDX-License-Identifier: MIT
#include "history/datasets.hpp"

#include <hdf5_hl.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <limits>
#include <numeric>
#include <vector>

namespace ampstair::history {

namespace {

constexpr hsize_t scalars_in_chunk = 1024;
constexpr unsigned creation_order = H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED;

Handle simple_space(std::span<const hsize_t> now, std::span<const hsize_t> most) {
  return {H5Screate_simple(static_cast<int>(now.size()), now.data(), most.data()), H5Sclose,
          "make a dataspace"};
}

Handle dataset_properties() {
  Handle properties(H5Pcreate(H5P_DATASET_CREATE), H5Pclose, "make dataset properties");
  check(H5Pset_attr_creation_order(properties.id(), creation_order), "order attributes");
  return properties;
}

Handle make_dataset(hid_t parent, const std::string& name, hid_t type, hid_t space,
                    hid_t properties) {
  return {H5Dcreate2(parent, name.c_str(), type, space, H5P_DEFAULT, properties, H5P_DEFAULT),
          H5Dclose, "make dataset", name};
}

void put_attribute(hid_t object, const std::string& name, hid_t type, hid_t space,
                   const void* data) {
  const Handle attribute(H5Acreate2(object, name.c_str(), type, space, H5P_DEFAULT, H5P_DEFAULT),
                         H5Aclose, "make attribute", name);
  check(H5Awrite(attribute.id(), type, data), "write attribute", name);
}

Handle one_value() {
  return {H5Screate(H5S_SCALAR), H5Sclose, "make a dataspace"};
}

void write_whole(const Handle& dataset, hid_t type, const void* data, const std::string& name) {
  check(H5Dwrite(dataset.id(), type, H5S_ALL, H5S_ALL, H5P_DEFAULT, data), "write dataset", name);
}

void describe(const Handle& dataset, const Naming& naming) {
  put_text(dataset.id(), "long_name", naming.long_name);
  put_text(dataset.id(), "units", naming.units);
}

void attach(const Handle& dataset, hid_t scale, unsigned dimension, const std::string& name) {
  check(H5DSattach_scale(dataset.id(), scale, dimension), "attach a dimension scale to", name);
}

void become_scale(const Handle& dataset, const std::string& name) {
  check(H5DSset_scale(dataset.id(), name.c_str()), "make a dimension scale of", name);
}

Handle make_column_dataset(hid_t group, const std::string& name, hid_t type, std::size_t length) {
  const std::array<hsize_t, 1> extent{length};
  const Handle space = simple_space(extent, extent);
  return make_dataset(group, name, type, space.id(), dataset_properties().id());
}

void mark_absent(const Handle& dataset, Precision precision) {
  const bool single = precision == Precision::single;
  const double absent = std::numeric_limits<double>::quiet_NaN();
  const float absent_single = std::numeric_limits<float>::quiet_NaN();
  put_attribute(
      dataset.id(), "_FillValue", single ? H5T_NATIVE_FLOAT : H5T_NATIVE_DOUBLE, one_value().id(),
      single ? static_cast<const void*>(&absent_single) : static_cast<const void*>(&absent));
}

Handle fill_column(hid_t group, const Naming& naming, const std::vector<double>& values) {
  Handle dataset = make_column_dataset(group, naming.name, H5T_NATIVE_DOUBLE, values.size());
  describe(dataset, naming);
  mark_absent(dataset, Precision::full);
  write_whole(dataset, H5T_NATIVE_DOUBLE, values.data(), naming.name);
  return dataset;
}

Handle fill_column(hid_t group, const Naming& naming, const std::vector<std::int64_t>& values) {
  Handle dataset = make_column_dataset(group, naming.name, H5T_NATIVE_INT64, values.size());
  describe(dataset, naming);
  write_whole(dataset, H5T_NATIVE_INT64, values.data(), naming.name);
  return dataset;
}

Handle fill_column(hid_t group, const Naming& naming, const std::vector<std::string>& values) {
  std::vector<const char*> bytes;
  std::ranges::transform(values, std::back_inserter(bytes), &std::string::c_str);
  const Handle type = utf8_type();
  Handle dataset = make_column_dataset(group, naming.name, type.id(), values.size());
  put_text(dataset.id(), "long_name", naming.long_name);
  write_whole(dataset, type.id(), bytes.data(), naming.name);
  return dataset;
}

// Nothing is deflated: the low digits of temperatures are noise to a packer, which would take about
// as long as the march and halve the record at best.
void set_chunks(const Handle& properties, std::span<const hsize_t> chunk) {
  check(H5Pset_chunk(properties.id(), static_cast<int>(chunk.size()), chunk.data()), "set chunks");
  check(H5Pset_fletcher32(properties.id()), "set checksums");
}

// Chunks are equally wide but for rounding, so that the last of a row holds no empty places.
hsize_t places_in_chunk(std::size_t width, const ChunkShape& most) {
  const hsize_t places = std::max<hsize_t>(width, 1);
  const hsize_t chunks = (places + most.places - 1) / most.places;
  return (places + chunks - 1) / chunks;
}

Handle history_properties(std::size_t width, bool scalar, const ChunkShape& most) {
  Handle properties = dataset_properties();
  const std::array<hsize_t, 2> chunk{scalar ? scalars_in_chunk : most.rows,
                                     places_in_chunk(width, most)};
  set_chunks(properties, std::span(chunk).first(scalar ? 1 : 2));
  const double absent = std::numeric_limits<double>::quiet_NaN();
  check(H5Pset_fill_value(properties.id(), H5T_NATIVE_DOUBLE, &absent), "set a fill value");
  return properties;
}

// Room for one band of chunks, so that a chunk is checksummed once however wide the band is.
Handle history_access(std::size_t width, const ChunkShape& most) {
  Handle access(H5Pcreate(H5P_DATASET_ACCESS), H5Pclose, "make dataset access properties");
  const std::size_t places = places_in_chunk(width, most);
  const std::size_t chunks = width / places + 2;
  const std::size_t bytes = chunks * most.rows * places * sizeof(double);
  check(H5Pset_chunk_cache(access.id(), 521, bytes, 1.0), "size a chunk cache");
  return access;
}

}  // namespace

void put_text(hid_t object, const std::string& name, const std::string& text) {
  const char* bytes = text.c_str();
  put_attribute(object, name, utf8_type().id(), one_value().id(), static_cast<const void*>(&bytes));
}

void put_integers(hid_t object, const std::string& name, std::span<const int> values) {
  const std::array<hsize_t, 1> extent{values.size()};
  const Handle space = values.size() == 1 ? one_value() : simple_space(extent, extent);
  put_attribute(object, name, H5T_NATIVE_INT, space.id(), values.data());
}

void put_number(hid_t object, const std::string& name, double value) {
  put_attribute(object, name, H5T_NATIVE_DOUBLE, one_value().id(), &value);
}

Handle make_group(hid_t parent, const std::string& name, const std::string& long_name) {
  const Handle properties(H5Pcreate(H5P_GROUP_CREATE), H5Pclose, "make group properties");
  check(H5Pset_link_creation_order(properties.id(), creation_order), "order a group");
  check(H5Pset_attr_creation_order(properties.id(), creation_order), "order attributes");
  Handle group(H5Gcreate2(parent, name.c_str(), H5P_DEFAULT, properties.id(), H5P_DEFAULT),
               H5Gclose, "make group", name);
  put_text(group.id(), "long_name", long_name);
  return group;
}

Handle make_axis(hid_t parent, const Naming& naming, std::span<const double> values) {
  Handle axis = make_column_dataset(parent, naming.name, H5T_NATIVE_DOUBLE, values.size());
  become_scale(axis, naming.name);
  describe(axis, naming);
  write_whole(axis, H5T_NATIVE_DOUBLE, values.data(), naming.name);
  return axis;
}

Handle make_entry_axis(hid_t parent, std::size_t length) {
  std::vector<std::int64_t> numbers(length);
  std::iota(numbers.begin(), numbers.end(), 0);
  Handle axis = make_column_dataset(parent, "entry", H5T_NATIVE_INT64, length);
  become_scale(axis, "entry");
  describe(axis, {"entry", "number of the entry, from 0", "1"});
  write_whole(axis, H5T_NATIVE_INT64, numbers.data(), "entry");
  return axis;
}

void make_column(hid_t group, hid_t entry, const Table::Column& column) {
  const Handle dataset = std::visit(
      [&](const auto& values) { return fill_column(group, column.naming, values); }, column.values);
  attach(dataset, entry, 0, column.naming.name);
}

void make_text(hid_t parent, const Naming& naming, const std::string& text) {
  const Handle type = utf8_type();
  const Handle dataset =
      make_dataset(parent, naming.name, type.id(), one_value().id(), dataset_properties().id());
  put_text(dataset.id(), "long_name", naming.long_name);
  const char* bytes = text.c_str();
  write_whole(dataset, type.id(), static_cast<const void*>(&bytes), naming.name);
}

Handle make_time(hid_t parent, const Naming& naming) {
  const std::array<hsize_t, 1> none{0};
  const std::array<hsize_t, 1> unlimited{H5S_UNLIMITED};
  const Handle properties = dataset_properties();
  set_chunks(properties, std::array<hsize_t, 1>{scalars_in_chunk});
  const Handle space = simple_space(none, unlimited);
  Handle time = make_dataset(parent, naming.name, H5T_NATIVE_DOUBLE, space.id(), properties.id());
  become_scale(time, naming.name);
  describe(time, naming);
  return time;
}

Handle make_history(hid_t parent, const Naming& naming, Precision precision, hid_t time, hid_t axis,
                    std::size_t width, const ChunkShape& most) {
  const bool scalar = axis < 0;
  const std::array<hsize_t, 2> none{0, width};
  const std::array<hsize_t, 2> unlimited{H5S_UNLIMITED, width};
  const std::size_t rank = scalar ? 1 : 2;
  const Handle space = simple_space(std::span(none).first(rank), std::span(unlimited).first(rank));
  const hid_t type = precision == Precision::single ? H5T_NATIVE_FLOAT : H5T_NATIVE_DOUBLE;
  Handle dataset(H5Dcreate2(parent, naming.name.c_str(), type, space.id(), H5P_DEFAULT,
                            history_properties(width, scalar, most).id(),
                            scalar ? H5P_DEFAULT : history_access(width, most).id()),
                 H5Dclose, "make dataset", naming.name);
  describe(dataset, naming);
  mark_absent(dataset, precision);
  attach(dataset, time, 0, naming.name);
  if (!scalar) {
    attach(dataset, axis, 1, naming.name);
  }
  return dataset;
}

}  // namespace ampstair::history
