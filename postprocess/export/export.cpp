// SPDX-License-Identifier: MIT
#include "export/export.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <map>
#include <string>
#include <utility>

#include "export/batch.hpp"
#include "export/csv.hpp"

namespace ampstair::post::tables {

namespace {

using checks::Histories;
using history::Series;

constexpr std::size_t block_values = std::size_t{1} << 17;  // 1 MiB of double precision

std::string headed(const std::string& name, const std::string& unit) {
  return fmt::format("{} [{}]", name, unit);
}

bool is_single(const Series& series) {
  return series.precision == history::Precision::single;
}

bool is_probes(const Series& series, const Histories& histories) {
  return series.axis == "probe" && histories.has("probes/name");
}

/// `0.5525 m [degC]`; where places share a position, the second is called `0.5525 m (2)`.
std::vector<std::string> place_headings(const Series& series, const Histories& histories) {
  std::vector<std::string> headings{headed("time", "s")};
  std::map<double, int> times_met;
  for (const double position : histories.axis(series.axis)) {
    const int met = ++times_met[position];
    const std::string number = met == 1 ? std::string() : fmt::format(" ({})", met);
    headings.push_back(headed(fmt::format("{:.7g} m{}", position, number), series.naming.units));
  }
  return headings;
}

std::vector<std::string> probe_headings(const Series& series, const Histories& histories) {
  std::vector<std::string> headings{headed("time", "s")};
  for (const auto& name : histories.texts("probes", "name")) {
    headings.push_back(headed(name, series.naming.units));
  }
  return headings;
}

/// The last column of a record made past its own stops; none where there was no such reason.
std::vector<std::string> with_stamp(std::vector<std::string> fields, const std::string& stamp,
                                    const std::string& field) {
  if (!stamp.empty()) {
    fields.push_back(field);
  }
  return fields;
}

void write_scalars(const Histories& histories, const std::vector<Series>& scalars,
                   const std::vector<double>& times, Batch& batch) {
  const std::string stamp = histories.beyond();
  std::vector<std::string> headings{headed("time", "s")};
  std::vector<std::vector<double>> columns;
  for (const Series& series : scalars) {
    headings.push_back(headed(series.naming.name, series.naming.units));
    columns.push_back(histories.scalar(series.naming.name));
  }
  batch.write(csv_record(with_stamp(headings, stamp, "beyond")));
  for (std::size_t row = 0; row < times.size(); ++row) {
    std::vector<std::string> fields{csv_number(times[row], false)};
    for (std::size_t k = 0; k < columns.size(); ++k) {
      fields.push_back(csv_number(columns[k].at(row), is_single(scalars[k])));
    }
    batch.write(csv_record(with_stamp(std::move(fields), stamp, stamp)));
  }
}

void write_rows(const Histories& histories, const Series& series, std::size_t width,
                const std::vector<double>& times, Batch& batch) {
  const std::string stamp = histories.beyond();
  const std::size_t rows_in_block =
      std::max<std::size_t>(1, block_values / std::max<std::size_t>(1, width));
  for (std::size_t first = 0; first < times.size(); first += rows_in_block) {
    const std::size_t count = std::min(rows_in_block, times.size() - first);
    const auto block = histories.rows(series.naming.name, first, count);
    for (std::size_t i = 0; i < count; ++i) {
      std::vector<std::string> fields{csv_number(times[first + i], false)};
      for (std::size_t place = 0; place < width; ++place) {
        fields.push_back(csv_number(block.at(i * width + place), is_single(series)));
      }
      batch.write(csv_record(with_stamp(std::move(fields), stamp, stamp)));
    }
  }
}

std::string file_name(const Series& series, const Histories& histories) {
  return (is_probes(series, histories) ? "probes" : series.naming.name) + ".csv";
}

}  // namespace

std::vector<std::filesystem::path> export_csv(const Histories& histories,
                                              const std::filesystem::path& directory,
                                              bool overwrite) {
  std::vector<Series> scalars;
  std::vector<Series> on_axes;
  for (const Series& series : histories.series()) {
    (series.axis.empty() ? scalars : on_axes).push_back(series);
  }
  std::vector<std::string> names{"series.csv"};
  for (const Series& series : on_axes) {
    names.push_back(file_name(series, histories));
  }
  Batch batch(directory, names, overwrite);
  const auto times = histories.times();
  batch.begin(names.front());
  write_scalars(histories, scalars, times, batch);
  for (const Series& series : on_axes) {
    const auto headings = is_probes(series, histories) ? probe_headings(series, histories)
                                                       : place_headings(series, histories);
    batch.begin(file_name(series, histories));
    batch.write(csv_record(with_stamp(headings, histories.beyond(), "beyond")));
    write_rows(histories, series, headings.size() - 1, times, batch);
  }
  return batch.publish();
}

}  // namespace ampstair::post::tables
