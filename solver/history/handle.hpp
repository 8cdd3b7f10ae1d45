// SPDX-License-Identifier: MIT
#pragma once

// Inside history/ only: the HDF5 library does not show in the folder's public headers.

#include <hdf5.h>

#include <stdexcept>
#include <string>
#include <string_view>

namespace ampstair::history {

/// HDF5 refused something; the text says what was tried, on which object, and the library's reason.
class Hdf5Failure : public std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// Owns one HDF5 identifier and closes it.
class Handle {
 public:
  using Closer = herr_t (*)(hid_t);

  Handle() = default;
  /// Takes the result of a call that makes or opens an object.
  /// @param doing,object for the message: "open dataset", "pieces/begin"
  /// @throws Hdf5Failure when `id` says the call failed
  Handle(hid_t id, Closer closer, std::string_view doing, std::string_view object = {});
  ~Handle() { close(); }
  Handle(Handle&& other) noexcept;
  Handle& operator=(Handle&& other) noexcept;
  Handle(const Handle&) = delete;
  Handle& operator=(const Handle&) = delete;

  [[nodiscard]] hid_t id() const { return id_; }
  void close() noexcept;

 private:
  hid_t id_ = H5I_INVALID_HID;
  Closer closer_ = nullptr;
};

/// @throws Hdf5Failure when `status` is negative
void check(herr_t status, std::string_view doing, std::string_view object = {});

/// Keeps HDF5 from printing its error stack on stderr; the stack still feeds Hdf5Failure.
void silence_hdf5();

/// A variable-length UTF-8 string type.
Handle utf8_type();

}  // namespace ampstair::history
