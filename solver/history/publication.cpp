// SPDX-License-Identifier: MIT
#include "history/publication.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <stdio.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <stdexcept>
#include <string>
#include <utility>

#include "diagnostics/problem.hpp"

namespace ampstair::history {

namespace {

using diagnostics::InputError;
namespace fs = std::filesystem;

[[noreturn]] void refuse_by_disk(const fs::path& record, int error) {
  throw std::runtime_error(
      fmt::format("cannot write the record '{}': {}", record.string(), std::strerror(error)));
}

// A lock of the open file description: it ends with the process however that ends, and does not
// stand in the way of the flock() with which HDF5 readers open a file.
bool lock_alone(int descriptor) {
  struct flock whole {};
  whole.l_type = F_WRLCK;
  whole.l_whence = SEEK_SET;
  return fcntl(descriptor, F_OFD_SETLK, &whole) == 0 || (errno != EAGAIN && errno != EACCES);
}

void require_no_other_writer(const fs::path& target) {
  const Descriptor there(open(target.c_str(), O_RDWR | O_CLOEXEC));
  if (there.number() >= 0 && !lock_alone(there.number())) {
    throw InputError(
        "E703", fmt::format("The record '{}' is being written by another run.", target.string()),
        "wait until that run has ended, or give the record another name");
  }
}

void require_folder(const fs::path& record) {
  const fs::path folder = record.parent_path();
  if (!fs::is_directory(folder)) {
    throw InputError("E701",
                     fmt::format("The record '{}' cannot be made: there is no folder '{}'.",
                                 record.string(), folder.string()),
                     fmt::format("mkdir -p '{}'", folder.string()));
  }
}

void require_writable_folder(const fs::path& record) {
  const fs::path folder = record.parent_path();
  if (access(folder.c_str(), W_OK | X_OK) != 0) {
    throw InputError("E701",
                     fmt::format("The record '{}' cannot be made: folder '{}' cannot be written "
                                 "({}).",
                                 record.string(), folder.string(), std::strerror(errno)),
                     "give the record a place in a folder of your own");
  }
}

void require_replaceable(const fs::path& record, IfExists if_exists) {
  if (!fs::is_regular_file(record)) {
    throw InputError(
        "E701", fmt::format("'{}' is not a file, so no record can stand there.", record.string()),
        "give a file name, such as march.h5");
  }
  require_no_other_writer(record);
  if (if_exists == IfExists::refuse) {
    throw InputError("E702",
                     fmt::format("The record '{}' exists and would be lost.", record.string()),
                     "add --overwrite to replace it once the new run has finished, or give another "
                     "name");
  }
}

void write_bytes(std::span<const std::byte> bytes, int descriptor, const fs::path& record) {
  while (!bytes.empty()) {
    const ssize_t put = write(descriptor, bytes.data(), bytes.size());
    if (put < 0 && errno != EINTR) {
      refuse_by_disk(record, errno);
    }
    bytes = bytes.subspan(put > 0 ? static_cast<std::size_t>(put) : 0);
  }
}

// 0, or the error. The first copy must not take the name of a file that appeared meanwhile; file
// systems that cannot promise this (EINVAL) get the plain rename.
int take_name(const fs::path& copy, const fs::path& target, bool may_replace) {
  if (!may_replace &&
      renameat2(AT_FDCWD, copy.c_str(), AT_FDCWD, target.c_str(), RENAME_NOREPLACE) == 0) {
    return 0;
  }
  if (!may_replace && errno != EINVAL && errno != ENOSYS) {
    return errno;
  }
  return rename(copy.c_str(), target.c_str()) == 0 ? 0 : errno;
}

}  // namespace

Descriptor::~Descriptor() {
  if (number_ >= 0) {
    close(number_);
  }
}

Descriptor::Descriptor(Descriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}

Descriptor& Descriptor::operator=(Descriptor&& other) noexcept {
  std::swap(number_, other.number_);
  return *this;
}

Publication::Publication(const fs::path& path, IfExists if_exists)
    : record_(fs::absolute(fs::is_symlink(path) ? fs::weakly_canonical(path) : path)),
      target_(record_) {
  require_folder(record_);
  if (fs::exists(fs::symlink_status(record_))) {
    require_replaceable(record_, if_exists);
    target_ += ".partial";
    require_no_other_writer(target_);
  }
  require_writable_folder(record_);
  copy_ = record_.parent_path() / fmt::format(".{}.{}.copy", record_.filename().string(), getpid());
}

void Publication::publish(std::span<const std::byte> bytes) {
  write_and_rename(bytes, false);
}

void Publication::conclude(std::span<const std::byte> bytes) {
  write_and_rename(bytes, true);
  if (target_ != record_ && rename(target_.c_str(), record_.c_str()) != 0) {
    refuse_by_disk(record_, errno);
  }
}

void Publication::write_and_rename(std::span<const std::byte> bytes, bool to_disk) {
  Descriptor copy(open(copy_.c_str(), O_RDWR | O_CREAT | O_TRUNC | O_CLOEXEC, 0666));
  if (copy.number() < 0) {
    refuse_by_disk(record_, errno);
  }
  try {
    lock_alone(copy.number());
    write_bytes(bytes, copy.number(), record_);
    if (to_disk && fsync(copy.number()) != 0 && errno != EINVAL) {
      refuse_by_disk(record_, errno);
    }
    const bool may_replace = published_ || target_ != record_;
    if (const int error = take_name(copy_, target_, may_replace); error != 0) {
      refuse_by_disk(record_, error);
    }
  } catch (...) {
    unlink(copy_.c_str());
    throw;
  }
  published_ = true;
  lock_ = std::move(copy);
}

}  // namespace ampstair::history
