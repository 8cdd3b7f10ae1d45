// SPDX-License-Identifier: MIT
#pragma once

// A run of 2 m under two steps of 10 min, all numbers invented so that answers are known by heart:
// the conductor rises by 0.05 K/s from 20 degC at 1.65 m (80 degC at the end) and by less with
// every step away from there; the surface is 5 K cooler; the wood rises to 25 degC.

#include <cstddef>
#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "checks/histories.hpp"
#include "history/layout.hpp"
#include "watch/item.hpp"

namespace ampstair::test {

struct Run {
  history::Layout layout;
  std::vector<double> times;                           ///< s
  std::vector<std::vector<std::vector<double>>> rows;  ///< [row][series][place]
  bool finished = true;
  std::map<std::string, double> closing;  ///< known only at the end

  /// Adds a table; an earlier one of that group goes.
  void set_table(history::Table table);
  /// Adds the same bar of the grid's error for every temperature of a history, and one of time.
  void set_bars(const std::string& history, double grid, double time);
};

/// A column of a table, without words for people.
template <class Values>
history::Table::Column column(const std::string& name, Values values) {
  return {{name, {}, "1"}, std::move(values)};
}

/// @param every s between rows
/// @param cells along the run
Run sample_run(double every = 60.0, std::size_t cells = 20);

/// Gives the run watch items, as a run sheet's.
void give_items(Run& run, const std::vector<watch::Item>& items);

/// An item of Kind::above; limit in degC.
watch::Item above(const std::string& name, const std::string& part, double celsius,
                  double persistence = 0.0);

/// The run without a file.
std::unique_ptr<post::checks::Histories> in_memory(Run run);

/// The run as a record.
void write_record(const Run& run, const std::filesystem::path& path);

/// A folder of its own for one test, removed with all that is in it.
class Folder {
 public:
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] std::filesystem::path operator/(const std::string& name) const {
    return path_ / name;
  }
  [[nodiscard]] std::vector<std::string> names() const;  ///< of all files in it, sorted

 private:
  std::filesystem::path path_;
};

}  // namespace ampstair::test
