// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace ampstair::post::tables {

/// Files that appear together: each is written beside its place under a temporary name, and all
/// take their names in publish(). Without it, nothing is left behind.
class Batch {
 public:
  /// Makes the directory and refuses names already taken.
  /// @throws diagnostics::InputError
  Batch(std::filesystem::path directory, const std::vector<std::string>& names, bool overwrite);
  ~Batch();
  Batch(const Batch&) = delete;
  Batch& operator=(const Batch&) = delete;

  /// Begins the next file; the one before is closed.
  /// @throws diagnostics::InputError when the disk refuses
  void begin(const std::string& name);
  void write(const std::string& text);
  /// Gives every file its name.
  /// @return the files, in the order they were begun
  std::vector<std::filesystem::path> publish();

 private:
  [[nodiscard]] std::filesystem::path partial(const std::string& name) const;
  void close();

  std::filesystem::path directory_;
  std::vector<std::string> begun_;
  std::ofstream out_;
};

}  // namespace ampstair::post::tables
