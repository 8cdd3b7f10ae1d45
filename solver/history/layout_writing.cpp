// SPDX-License-Identifier: MIT
#include "history/layout_writing.hpp"

#include <array>
#include <map>
#include <string>
#include <utility>

#include "diagnostics/contract.hpp"
#include "history/datasets.hpp"
#include "history/provenance.hpp"
#include "history/sha256.hpp"

namespace ampstair::history {

namespace {

constexpr std::size_t memory_step = std::size_t{1} << 20U;

Handle make_file(const std::filesystem::path& path) {
  silence_hdf5();
  const Handle creation(H5Pcreate(H5P_FILE_CREATE), H5Pclose, "make file properties");
  const unsigned order = H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED;
  check(H5Pset_link_creation_order(creation.id(), order), "order the root group");
  check(H5Pset_attr_creation_order(creation.id(), order), "order attributes");
  const Handle access(H5Pcreate(H5P_FILE_ACCESS), H5Pclose, "make file access properties");
  // In memory: HDF5 then never meets a full disk, after which it can neither close the file nor
  // end the process cleanly; what reaches the disk is written by Publication.
  check(H5Pset_fapl_core(access.id(), memory_step, false), "keep the file in memory");
  check(H5Pset_libver_bounds(access.id(), H5F_LIBVER_EARLIEST, H5F_LIBVER_V18),
        "choose a format every reader knows");
  return {H5Fcreate(path.c_str(), H5F_ACC_TRUNC, creation.id(), access.id()), H5Fclose, "make file",
          path.string()};
}

void write_heading(hid_t root, const Layout& layout) {
  put_text(root, "Conventions", "CF-1.8");
  put_text(root, "record_kind", march_record);
  put_integers(root, "format_version", std::array{format_major, format_minor});
  put_text(root, "program", layout.program);
  put_text(root, "commit", layout.commit);
  put_text(root, "created", utc_now());
  put_text(root, "title", layout.title);
  put_text(root, "arrangement", layout.arrangement);
  if (!layout.beyond.empty()) {
    put_text(root, "beyond", layout.beyond);
  }
  put_text(root, "sheet_name", layout.sheet_name);
  put_text(root, "sheet_sha256", sha256(layout.sheet_text));
  put_integers(root, "finished", std::array{0});
}

void write_provenance(hid_t root, const Layout& layout) {
  const Handle group = make_group(root, "provenance", "what the record was made from");
  make_text(group.id(), {"run_sheet_text", "the run sheet, word for word", ""}, layout.sheet_text);
}

std::size_t length_of(const Table::Column& column) {
  return std::visit([](const auto& values) { return values.size(); }, column.values);
}

struct OpenAxis {
  Handle dataset;
  std::size_t length;
};

FieldDatasets make_fields(hid_t root, const OpenAxis& cell) {
  const Handle group = make_group(root, "fields", "temperature of every cell of the r-z grid");
  Handle time = make_time(group.id(), {"field_time", "time of the fields since the start", "s"});
  Handle temperature =
      make_history(group.id(), {"field_temperature", "temperature of the cells", "degC"},
                   Precision::single, time.id(), cell.dataset.id(), cell.length, field_chunk);
  return {HistoryDataset(std::move(time), 1, true, Precision::full),
          HistoryDataset(std::move(temperature), cell.length, false, Precision::single)};
}

HistoryDataset make_series(hid_t root, const Series& series, hid_t time,
                           const std::map<std::string, OpenAxis>& axes) {
  if (series.axis.empty()) {
    return {make_history(root, series.naming, series.precision, time, H5I_INVALID_HID, 1,
                         history_chunk),
            1, true, series.precision};
  }
  const auto axis = axes.find(series.axis);
  diagnostics::expects(axis != axes.end(), "a history names an axis of its layout");
  const std::size_t width = axis->second.length;
  return {make_history(root, series.naming, series.precision, time, axis->second.dataset.id(),
                       width, history_chunk),
          width, false, series.precision};
}

}  // namespace

void write_table(hid_t root, const Table& table) {
  const Handle group = make_group(root, table.group, table.long_name);
  const std::size_t length = table.columns.empty() ? 0 : length_of(table.columns.front());
  const Handle entry = make_entry_axis(group.id(), length);
  for (const Table::Column& column : table.columns) {
    diagnostics::expects(length_of(column) == length, "the columns of a table are equally long");
    make_column(group.id(), entry.id(), column);
  }
}

OpenRecord write_layout(const std::filesystem::path& path, const Layout& layout) {
  Handle file = make_file(path);
  const hid_t root = file.id();
  write_heading(root, layout);
  Handle time = make_time(root, {"time", "time since the start of the march", "s"});
  std::map<std::string, OpenAxis> axes;
  for (const Axis& axis : layout.axes) {
    axes.emplace(axis.naming.name,
                 OpenAxis{make_axis(root, axis.naming, axis.values), axis.values.size()});
  }
  std::vector<HistoryDataset> series;
  for (const Series& one : layout.series) {
    series.push_back(make_series(root, one, time.id(), axes));
  }
  for (const Table& table : layout.tables) {
    write_table(root, table);
  }
  write_provenance(root, layout);
  std::optional<FieldDatasets> fields;
  if (const auto cell = axes.find("cell"); cell != axes.end()) {
    fields.emplace(make_fields(root, cell->second));
  }
  return {std::move(file), HistoryDataset(std::move(time), 1, true, Precision::full),
          std::move(series), std::move(fields)};
}

}  // namespace ampstair::history
