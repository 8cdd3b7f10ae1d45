// SPDX-License-Identifier: MIT
#include "history/handle.hpp"

#include <fmt/format.h>

#include <utility>

namespace ampstair::history {

namespace {

// Walking upward the first entry is the innermost one: the true cause, with errno if there is one.
herr_t keep_innermost(unsigned depth, const H5E_error2_t* entry, void* text) {
  if (depth == 0 && entry->desc != nullptr) {
    *static_cast<std::string*>(text) = entry->desc;
  }
  return 0;
}

std::string reason() {
  std::string text;
  H5Ewalk2(H5E_DEFAULT, H5E_WALK_UPWARD, keep_innermost, &text);
  return text.empty() ? std::string("HDF5 gives no reason") : text;
}

[[noreturn]] void fail(std::string_view doing, std::string_view object) {
  const std::string name = object.empty() ? std::string() : fmt::format(" '{}'", object);
  throw Hdf5Failure(fmt::format("cannot {}{}: {}", doing, name, reason()));
}

}  // namespace

Handle::Handle(hid_t id, Closer closer, std::string_view doing, std::string_view object)
    : id_(id), closer_(closer) {
  if (id < 0) {
    fail(doing, object);
  }
}

Handle::Handle(Handle&& other) noexcept
    : id_(std::exchange(other.id_, H5I_INVALID_HID)), closer_(other.closer_) {}

Handle& Handle::operator=(Handle&& other) noexcept {
  if (this != &other) {
    close();
    id_ = std::exchange(other.id_, H5I_INVALID_HID);
    closer_ = other.closer_;
  }
  return *this;
}

void Handle::close() noexcept {
  if (id_ >= 0) {
    closer_(std::exchange(id_, H5I_INVALID_HID));
  }
}

void check(herr_t status, std::string_view doing, std::string_view object) {
  if (status < 0) {
    fail(doing, object);
  }
}

void silence_hdf5() {
  H5Eset_auto2(H5E_DEFAULT, nullptr, nullptr);
}

Handle utf8_type() {
  Handle type(H5Tcopy(H5T_C_S1), H5Tclose, "make a string type");
  check(H5Tset_size(type.id(), H5T_VARIABLE), "size a string type");
  check(H5Tset_cset(type.id(), H5T_CSET_UTF8), "set the coding of a string type");
  return type;
}

}  // namespace ampstair::history
