// SPDX-License-Identifier: MIT
#include "history_damaged_records.hpp"

#include <hdf5.h>

#include <array>
#include <functional>
#include <stdexcept>
#include <vector>

namespace ampstair::test {

namespace {

hid_t must(hid_t result) {
  if (result < 0) {
    throw std::logic_error("the fault could not be put into the record");
  }
  return result;
}

void within(const std::filesystem::path& record, const std::function<void(hid_t)>& change) {
  const hid_t file = must(H5Fopen(record.c_str(), H5F_ACC_RDWR, H5P_DEFAULT));
  change(file);
  must(H5Fclose(file));
}

void replace_attribute(hid_t file, const std::string& name, hid_t type, hid_t space,
                       const void* value) {
  must(H5Adelete(file, name.c_str()));
  const hid_t attribute =
      must(H5Acreate2(file, name.c_str(), type, space, H5P_DEFAULT, H5P_DEFAULT));
  must(H5Awrite(attribute, type, value));
  must(H5Aclose(attribute));
}

void replace_dataset(hid_t file, const std::string& path, hid_t type, hid_t space) {
  must(H5Ldelete(file, path.c_str(), H5P_DEFAULT));
  must(H5Dclose(
      must(H5Dcreate2(file, path.c_str(), type, space, H5P_DEFAULT, H5P_DEFAULT, H5P_DEFAULT))));
}

}  // namespace

void set_text_attribute(const std::filesystem::path& record, const std::string& name,
                        const std::string& text) {
  within(record, [&](hid_t file) {
    const hid_t type = must(H5Tcopy(H5T_C_S1));
    must(H5Tset_size(type, H5T_VARIABLE));
    const char* bytes = text.c_str();
    replace_attribute(file, name, type, must(H5Screate(H5S_SCALAR)),
                      static_cast<const void*>(&bytes));
  });
}

void set_format_version(const std::filesystem::path& record, int major, int minor) {
  within(record, [&](hid_t file) {
    const std::array<hsize_t, 1> two{2};
    const std::array<int, 2> numbers{major, minor};
    replace_attribute(file, "format_version", H5T_NATIVE_INT,
                      must(H5Screate_simple(1, two.data(), nullptr)), numbers.data());
  });
}

void remove_attribute(const std::filesystem::path& record, const std::string& name) {
  within(record, [&](hid_t file) { must(H5Adelete(file, name.c_str())); });
}

void remove_object(const std::filesystem::path& record, const std::string& path) {
  within(record, [&](hid_t file) { must(H5Ldelete(file, path.c_str(), H5P_DEFAULT)); });
}

void replace_by_texts(const std::filesystem::path& record, const std::string& path,
                      std::size_t length) {
  within(record, [&](hid_t file) {
    const hid_t type = must(H5Tcopy(H5T_C_S1));
    must(H5Tset_size(type, 7));
    const std::array<hsize_t, 1> extent{length};
    replace_dataset(file, path, type, must(H5Screate_simple(1, extent.data(), nullptr)));
  });
}

void replace_by_block(const std::filesystem::path& record, const std::string& path) {
  within(record, [&](hid_t file) {
    const std::array<hsize_t, 3> extent{2, 3, 4};
    replace_dataset(file, path, H5T_NATIVE_DOUBLE,
                    must(H5Screate_simple(3, extent.data(), nullptr)));
  });
}

void lengthen(const std::filesystem::path& record, const std::string& path, std::size_t rows) {
  within(record, [&](hid_t file) {
    const hid_t dataset = must(H5Dopen2(file, path.c_str(), H5P_DEFAULT));
    std::array<hsize_t, 2> extent{};
    const hid_t space = must(H5Dget_space(dataset));
    must(H5Sget_simple_extent_dims(space, extent.data(), nullptr));
    extent[0] = rows;
    must(H5Dset_extent(dataset, extent.data()));
    must(H5Sclose(space));
    must(H5Dclose(dataset));
  });
}

void make_empty_file(const std::filesystem::path& file) {
  must(H5Fclose(must(H5Fcreate(file.c_str(), H5F_ACC_TRUNC, H5P_DEFAULT, H5P_DEFAULT))));
}

}  // namespace ampstair::test
