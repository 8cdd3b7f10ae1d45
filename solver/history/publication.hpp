// SPDX-License-Identifier: MIT
#pragma once

// Inside history/ only.

#include <cstddef>
#include <filesystem>
#include <span>

#include "history/writer.hpp"

namespace ampstair::history {

/// Owns a file descriptor.
class Descriptor {
 public:
  explicit Descriptor(int number = -1) : number_(number) {}
  ~Descriptor();
  Descriptor(Descriptor&& other) noexcept;
  Descriptor& operator=(Descriptor&& other) noexcept;
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;

  [[nodiscard]] int number() const { return number_; }

 private:
  int number_;
};

/// How a record comes to stand under its name: as whole copies only. HDF5 changes several places of
/// a file for each flush, so a process killed between two of them would leave a file that does not
/// open. So the record is kept in memory (some 10 MB for an hour), and for each flush its
/// bytes are written to a new file which then takes the record's name in one rename.
class Publication {
 public:
  /// @throws diagnostics::InputError when `path` may not be written, see RecordWriter
  Publication(const std::filesystem::path& path, IfExists if_exists);

  /// The name its bytes are published under.
  [[nodiscard]] const std::filesystem::path& target() const { return target_; }
  /// What messages call the record.
  [[nodiscard]] const std::filesystem::path& record() const { return record_; }

  /// Puts `bytes` in the place of what was published before.
  /// @throws std::runtime_error when the disk refuses; what was published before still stands
  void publish(std::span<const std::byte> bytes);
  /// publish(), kept through a loss of power; and the record takes the name of the one it replaces.
  void conclude(std::span<const std::byte> bytes);

 private:
  void write_and_rename(std::span<const std::byte> bytes, bool to_disk);

  std::filesystem::path record_;
  std::filesystem::path
      target_;  ///< the record, or "<record>.partial" until it replaces an old one
  std::filesystem::path copy_;
  bool published_ = false;
  Descriptor lock_;  ///< of the published file: tells another writer that this one is alive
};

}  // namespace ampstair::history
