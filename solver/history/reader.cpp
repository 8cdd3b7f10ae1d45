// SPDX-License-Identifier: MIT
#include "history/reader.hpp"

#include <fmt/format.h>
#include <hdf5_hl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <limits>
#include <type_traits>
#include <utility>

#include "diagnostics/problem.hpp"
#include "history/dataset_reading.hpp"
#include "history/layout_writing.hpp"

namespace ampstair::history {

namespace {

using diagnostics::InputError;
namespace fs = std::filesystem;

void require_readable_file(const fs::path& path) {
  std::error_code ignored;
  if (!fs::exists(path, ignored)) {
    throw InputError("E710", fmt::format("There is no record '{}'.", path.string()),
                     "give the name of a file that 'ampstair run' has written");
  }
  if (!fs::is_regular_file(path, ignored)) {
    throw InputError("E710", fmt::format("'{}' is not a file.", path.string()),
                     "give the name of a file that 'ampstair run' has written");
  }
  if (access(path.c_str(), R_OK) != 0) {
    throw InputError(
        "E710",
        fmt::format("The record '{}' cannot be read: {}.", path.string(), std::strerror(errno)),
        fmt::format("chmod u+r '{}'", path.string()));
  }
}

Handle open_file(const fs::path& path) {
  require_readable_file(path);
  silence_hdf5();
  const Handle access(H5Pcreate(H5P_FILE_ACCESS), H5Pclose, "make file access properties");
  // A published record is never changed in place, so it can be read beside its writer.
  check(H5Pset_file_locking(access.id(), false, true), "do without file locks");
  return {H5Fopen(path.c_str(), H5F_ACC_RDONLY, access.id()), H5Fclose, "open file"};
}

void require_kind_and_version(hid_t file) {
  if (!has_attribute(file, "record_kind")) {
    throw Hdf5Failure("it is an HDF5 file without the attribute 'record_kind'");
  }
  const std::string kind = attribute_as_text(file, "record_kind");
  if (kind != march_record) {
    throw Hdf5Failure(
        fmt::format("its record_kind is '{}' where '{}' was expected", kind, march_record));
  }
}

struct Version {
  int major;
  int minor;
};

Version version_of(hid_t file) {
  const std::vector<int> numbers = attribute_integers(file, "format_version", 2);
  return {numbers[0], numbers[1]};
}

std::string text_or_nothing(hid_t object, const std::string& name) {
  return has_attribute(object, name) ? attribute_as_text(object, name) : std::string();
}

// Histories are the root's datasets whose first dimension is "time"; the scale itself is none.
std::vector<Series> find_series(hid_t file) {
  std::vector<Series> found;
  for (const std::string& name : dataset_names(file)) {
    const DatasetReading dataset(file, name);
    const std::size_t rank = dataset.shape().size();
    if (rank < 1 || rank > 2 || !dataset.holds_numbers() || H5DSis_scale(dataset.id()) > 0 ||
        scale_name(dataset.id(), 0) != "time") {
      continue;
    }
    found.push_back(
        {.naming = {name, text_or_nothing(dataset.id(), "long_name"),
                    text_or_nothing(dataset.id(), "units")},
         .axis = rank == 2 ? scale_name(dataset.id(), 1) : std::string(),
         .precision = dataset.is_single_precision() ? Precision::single : Precision::full});
  }
  return found;
}

}  // namespace

class RecordReader::Storage {
 public:
  explicit Storage(const fs::path& path) : path_(path.string()) {
    guarded("E711", "is not a record that can be read", [&] {
      file_ = open_file(path);
      require_kind_and_version(file_.id());
      require_version();
    });
    reading([&] {
      series_ = find_series(file_.id());
      rows_ = count_rows();
    });
  }

  /// Runs `work`; what HDF5 refuses becomes a fault of the user's file.
  template <class Work>
  std::invoke_result_t<Work> reading(const Work& work) const {
    return guarded("E713", "is damaged or not written by this program", work);
  }

  [[nodiscard]] hid_t file() const { return file_.id(); }
  [[nodiscard]] const std::vector<Series>& series() const { return series_; }
  [[nodiscard]] hsize_t row_count() const { return rows_; }

  /// Rows that may be read of a dataset: those of a history end with the shortest history.
  [[nodiscard]] hsize_t rows_of(const DatasetReading& dataset) const {
    const auto is_it = [&](const Series& one) { return one.naming.name == dataset.path(); };
    if (dataset.shape().empty()) {
      return 0;
    }
    return std::ranges::any_of(series_, is_it) ? rows_ : dataset.shape()[0];
  }

 private:
  template <class Work>
  std::invoke_result_t<Work> guarded(const char* code, const char* verdict,
                                     const Work& work) const {
    try {
      return work();
    } catch (const Hdf5Failure& failure) {
      throw InputError(code, fmt::format("The file '{}' {}: {}.", path_, verdict, failure.what()),
                       "march the run sheet again, or give another record");
    }
  }

  void require_version() const {
    const Version version = version_of(file_.id());
    if (version.major != format_major) {
      throw InputError(
          "E712",
          fmt::format("The record '{}' has format version {}.{}; this program reads {}.x.", path_,
                      version.major, version.minor, format_major),
          version.major > format_major ? "read it with a newer program of this name"
                                       : "read it with the program version it names, or march its "
                                         "run sheet again");
    }
  }

  [[nodiscard]] hsize_t count_rows() const {
    const DatasetReading time(file_.id(), "time");
    time.require_rank(1);
    hsize_t rows = time.shape()[0];
    for (const Series& one : series_) {
      rows = std::min(rows, DatasetReading(file_.id(), one.naming.name).shape()[0]);
    }
    return rows;
  }

  std::string path_;
  Handle file_;
  std::vector<Series> series_;
  hsize_t rows_ = 0;
};

RecordReader::RecordReader(const fs::path& path) : storage_(std::make_unique<Storage>(path)) {}

RecordReader::~RecordReader() = default;

bool RecordReader::finished() const {
  return storage_->reading(
      [this] { return attribute_integers(storage_->file(), "finished", 1)[0] != 0; });
}

std::string RecordReader::attribute(const std::string& name) const {
  return storage_->reading([&] { return attribute_as_text(storage_->file(), name); });
}

std::string RecordReader::attribute_if_any(const std::string& name) const {
  return storage_->reading([&] {
    return has_attribute(storage_->file(), name) ? attribute_as_text(storage_->file(), name)
                                                 : std::string();
  });
}

std::optional<double> RecordReader::closing(const std::string& name) const {
  return storage_->reading([&] {
    return has_attribute(storage_->file(), name)
               ? std::optional(attribute_number(storage_->file(), name))
               : std::nullopt;
  });
}

std::string RecordReader::sheet_text() const {
  return storage_->reading([this] {
    const DatasetReading dataset(storage_->file(), "provenance/run_sheet_text");
    dataset.require_rank(0);
    return dataset.texts().front();
  });
}

std::vector<double> RecordReader::times() const {
  return storage_->reading([this] {
    return DatasetReading(storage_->file(), "time").numbers(0, storage_->row_count());
  });
}

const std::vector<Series>& RecordReader::series() const {
  return storage_->series();
}

bool RecordReader::has(const std::string& path) const {
  return object_exists(storage_->file(), path);
}

std::vector<std::string> RecordReader::tables() const {
  return storage_->reading([this] {
    auto groups = group_names(storage_->file());
    std::erase_if(groups, [this](const std::string& group) {
      return !object_exists(storage_->file(), group + "/entry");
    });
    return groups;
  });
}

std::vector<std::string> RecordReader::columns(const std::string& table) const {
  return storage_->reading([&] {
    const Handle group(H5Gopen2(storage_->file(), table.c_str(), H5P_DEFAULT), H5Gclose,
                       "open group", table);
    auto names = dataset_names(group.id());
    std::erase(names, "entry");
    return names;
  });
}

Naming RecordReader::naming(const std::string& path) const {
  return storage_->reading([&] {
    const Handle object(H5Oopen(storage_->file(), path.c_str(), H5P_DEFAULT), H5Oclose, "open",
                        path);
    return Naming{path.substr(path.rfind('/') + 1), text_or_nothing(object.id(), "long_name"),
                  text_or_nothing(object.id(), "units")};
  });
}

std::vector<double> RecordReader::axis(const std::string& name) const {
  return storage_->reading([&] {
    const DatasetReading dataset(storage_->file(), name);
    dataset.require_rank(1);
    return dataset.numbers(0, dataset.shape()[0]);
  });
}

std::vector<double> RecordReader::scalar(const std::string& name) const {
  return storage_->reading([&] {
    const DatasetReading dataset(storage_->file(), name);
    dataset.require_rank(1);
    return dataset.numbers(0, storage_->rows_of(dataset));
  });
}

std::vector<double> RecordReader::rows(const std::string& name, std::size_t first,
                                       std::size_t count) const {
  return storage_->reading([&] {
    const DatasetReading dataset(storage_->file(), name);
    dataset.require_rank(2);
    if (first > storage_->rows_of(dataset) || count > storage_->rows_of(dataset) - first) {
      throw Hdf5Failure(fmt::format("dataset '{}' has {} rows, none of {} to {}", name,
                                    storage_->rows_of(dataset), first, first + count));
    }
    return dataset.numbers(first, count);
  });
}

std::vector<double> RecordReader::numbers(const std::string& group,
                                          const std::string& column) const {
  return axis(group + "/" + column);
}

std::vector<std::int64_t> RecordReader::integers(const std::string& group,
                                                 const std::string& column) const {
  return storage_->reading(
      [&] { return DatasetReading(storage_->file(), group + "/" + column).integers(); });
}

std::vector<std::string> RecordReader::texts(const std::string& group,
                                             const std::string& column) const {
  return storage_->reading([&] {
    const DatasetReading dataset(storage_->file(), group + "/" + column);
    dataset.require_rank(1);
    return dataset.texts();
  });
}

}  // namespace ampstair::history
