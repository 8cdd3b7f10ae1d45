// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "history/layout.hpp"

namespace ampstair::history {

/// Plain numbers, row-major, for programs that know HDF5 but no records.
struct Array {
  Naming naming;
  std::vector<std::size_t> shape;
  std::variant<std::vector<double>, std::vector<float>, std::vector<std::int32_t>> values;
};

/// The bytes of an HDF5 file that holds these arrays, each with `long_name` and `units`. Made in
/// memory, so that HDF5 never meets a full disk.
/// @throws std::runtime_error when HDF5 refuses
std::string array_file(std::span<const Array> arrays);

}  // namespace ampstair::history
