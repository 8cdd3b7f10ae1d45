// SPDX-License-Identifier: MIT
#include "history/array_file.hpp"

#include <functional>
#include <numeric>

#include "diagnostics/contract.hpp"
#include "history/datasets.hpp"

namespace ampstair::history {

namespace {

hid_t type_of(const std::vector<double>& /*values*/) {
  return H5T_NATIVE_DOUBLE;
}
hid_t type_of(const std::vector<float>& /*values*/) {
  return H5T_NATIVE_FLOAT;
}
hid_t type_of(const std::vector<std::int32_t>& /*values*/) {
  return H5T_NATIVE_INT32;
}

template <class Values>
void write_array(hid_t file, const Array& array, const Values& values) {
  const std::vector<hsize_t> extent(array.shape.begin(), array.shape.end());
  const auto length =
      std::accumulate(extent.begin(), extent.end(), hsize_t{1}, std::multiplies<>());
  diagnostics::expects(length == values.size(), "an array has the shape it says");
  const std::string& name = array.naming.name;
  const Handle space(H5Screate_simple(static_cast<int>(extent.size()), extent.data(), nullptr),
                     H5Sclose, "make a dataspace");
  const Handle dataset(H5Dcreate2(file, name.c_str(), type_of(values), space.id(), H5P_DEFAULT,
                                  H5P_DEFAULT, H5P_DEFAULT),
                       H5Dclose, "make dataset", name);
  put_text(dataset.id(), "long_name", array.naming.long_name);
  put_text(dataset.id(), "units", array.naming.units);
  check(H5Dwrite(dataset.id(), type_of(values), H5S_ALL, H5S_ALL, H5P_DEFAULT, values.data()),
        "write dataset", name);
}

}  // namespace

std::string array_file(std::span<const Array> arrays) {
  silence_hdf5();
  const Handle access(H5Pcreate(H5P_FILE_ACCESS), H5Pclose, "make file access properties");
  check(H5Pset_fapl_core(access.id(), std::size_t{1} << 20U, false), "keep the file in memory");
  const Handle file(H5Fcreate("arrays", H5F_ACC_TRUNC, H5P_DEFAULT, access.id()), H5Fclose,
                    "make file");
  for (const Array& array : arrays) {
    std::visit([&](const auto& values) { write_array(file.id(), array, values); }, array.values);
  }
  check(H5Fflush(file.id(), H5F_SCOPE_GLOBAL), "flush the file");
  const ssize_t size = H5Fget_file_image(file.id(), nullptr, 0);
  std::string bytes(size > 0 ? static_cast<std::size_t>(size) : 0, '\0');
  if (H5Fget_file_image(file.id(), bytes.data(), bytes.size()) <= 0) {
    throw Hdf5Failure("cannot take the bytes of the file");
  }
  return bytes;
}

}  // namespace ampstair::history
