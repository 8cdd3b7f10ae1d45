// SPDX-License-Identifier: MIT
#include "history/writer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstddef>
#include <span>
#include <stdexcept>

#include "diagnostics/contract.hpp"
#include "diagnostics/problem.hpp"
#include "history/datasets.hpp"
#include "history/layout_writing.hpp"
#include "history/publication.hpp"

namespace ampstair::history {

namespace {

using Clock = std::chrono::steady_clock;

// Rows wait at most this long for a flush, except where the record is so large that writing it
// takes more than a twentieth of this: then flushing is kept to a twentieth of the wall time.
constexpr std::chrono::milliseconds flush_interval{500};
constexpr int flush_share = 20;

// The file as it stands, good until HDF5 is called again: its own memory, where it keeps the file
// (see make_file in layout_writing.cpp). For such a file its handle is where that memory begins.
std::span<const std::byte> image_of(const Handle& file) {
  check(H5Fflush(file.id(), H5F_SCOPE_GLOBAL), "flush the record");
  const ssize_t size = H5Fget_file_image(file.id(), nullptr, 0);
  if (size < 0) {
    throw Hdf5Failure("cannot see the size of the record");
  }
  void* handle = nullptr;
  check(H5Fget_vfd_handle(file.id(), H5P_DEFAULT, &handle), "see the bytes of the record");
  return {*static_cast<const std::byte* const*>(handle), static_cast<std::size_t>(size)};
}

void mark_finished(const Handle& file) {
  const Handle attribute(H5Aopen(file.id(), "finished", H5P_DEFAULT), H5Aclose, "open attribute",
                         "finished");
  const int yes = 1;
  check(H5Awrite(attribute.id(), H5T_NATIVE_INT, &yes), "write attribute", "finished");
}

}  // namespace

class RecordWriter::Storage {
 public:
  Storage(const std::filesystem::path& path, const Layout& layout, IfExists if_exists)
      : publication_(path, if_exists), record_(write_layout(publication_.target(), layout)) {
    try {
      publish();
    } catch (const std::runtime_error& failure) {
      throw diagnostics::InputError("E704", std::string(failure.what()) + ".",
                                    "make room on that disk, or give another place");
    }
  }

  ~Storage() {
    try {
      if (usable_ && rows_kept_) {
        flush();
      }
    } catch (const std::exception&) {
      usable_ = false;  // The record stands as it was flushed last; a destructor cannot tell more.
    }
  }

  Storage(const Storage&) = delete;
  Storage& operator=(const Storage&) = delete;

  void append(double time, std::span<const std::span<const double>> values) {
    diagnostics::expects(usable_, "a record takes rows until it is finished or has failed");
    diagnostics::expects(values.size() == record_.series.size(), "a row has all histories");
    for (std::size_t k = 0; k < values.size(); ++k) {
      record_.series[k].keep(values[k]);
    }
    record_.time.keep(std::array{time});
    kept_one_more(++rows_ % history_chunk.rows == 0);
  }

  void append_field(double time, std::span<const double> temperature) {
    diagnostics::expects(record_.fields.has_value(), "fields need the axis 'cell' in the layout");
    record_.fields->temperature.keep(temperature);
    record_.fields->time.keep(std::array{time});
    kept_one_more(true);
  }

  void flush() {
    guarded([this] {
      write_kept();
      publish();
    });
  }

  void finish(std::span<const Closing> closing, std::span<const Table> tables) {
    guarded([&] {
      write_kept();
      for (const Table& table : tables) {
        write_table(record_.file.id(), table);
      }
      for (const Closing& one : closing) {
        put_number(record_.file.id(), one.name, one.value);
      }
      mark_finished(record_.file);
      publication_.conclude(image_of(record_.file));
    });
    usable_ = false;
  }

 private:
  // After a failure nothing more is written: the published file is whole as it stands.
  template <class Work>
  void guarded(const Work& work) {
    try {
      work();
    } catch (const Hdf5Failure& failure) {
      usable_ = false;
      throw std::runtime_error(fmt::format("cannot write the record '{}': {}",
                                           publication_.record().string(), failure.what()));
    } catch (...) {
      usable_ = false;
      throw;
    }
  }

  void kept_one_more(bool chunk_is_full) {
    rows_kept_ = true;
    if (Clock::now() >= next_flush_) {
      flush();
    } else if (chunk_is_full) {
      guarded([this] { write_kept(); });
    }
  }

  void write_kept() {
    for (HistoryDataset& one : record_.series) {
      one.write_kept();
    }
    record_.time.write_kept();
    if (record_.fields) {
      record_.fields->temperature.write_kept();
      record_.fields->time.write_kept();
    }
    rows_kept_ = false;
  }

  void publish() {
    const auto begin = Clock::now();
    publication_.publish(image_of(record_.file));
    const auto end = Clock::now();
    next_flush_ = end + std::max<Clock::duration>(flush_interval, flush_share * (end - begin));
  }

  Publication publication_;
  OpenRecord record_;
  std::size_t rows_ = 0;
  bool rows_kept_ = false;
  bool usable_ = true;
  Clock::time_point next_flush_;
};

RecordWriter::RecordWriter(const std::filesystem::path& path, const Layout& layout,
                           IfExists if_exists)
    : storage_(std::make_unique<Storage>(path, layout, if_exists)) {}

RecordWriter::~RecordWriter() = default;

void RecordWriter::append(double time, std::span<const std::span<const double>> values) {
  storage_->append(time, values);
}

void RecordWriter::append_field(double time, std::span<const double> temperature) {
  storage_->append_field(time, temperature);
}

void RecordWriter::flush() {
  storage_->flush();
}

void RecordWriter::finish(std::span<const Closing> closing, std::span<const Table> tables) {
  storage_->finish(closing, tables);
}

}  // namespace ampstair::history
