// SPDX-License-Identifier: MIT
#include "export/json.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <functional>
#include <nlohmann/json.hpp>
#include <string>

#include "export/batch.hpp"
#include "export/csv.hpp"

namespace ampstair::post::tables {

namespace {

using checks::Histories;
using history::Series;
using nlohmann::json;

constexpr std::size_t block_values = std::size_t{1} << 17;  // 1 MiB of double precision
constexpr const char* cells = "grid";                       // of the fields, which are left out

std::string quoted(const std::string& text) {
  return json(text).dump(-1, ' ', false, json::error_handler_t::replace);
}

std::string text_or_null(const std::string& text) {
  return text.empty() ? "null" : quoted(text);
}

std::string number(double value, bool single) {
  const std::string text = csv_number(value, single);
  return text.empty() ? "null" : text;
}

std::string numbers(const double* values, std::size_t count, bool single) {
  std::string text = "[";
  for (std::size_t i = 0; i < count; ++i) {
    text += (i == 0 ? "" : ",") + number(values[i], single);
  }
  return text + "]";
}

std::string numbers(const std::vector<double>& values, bool single) {
  return numbers(values.data(), values.size(), single);
}

std::string texts(const std::vector<std::string>& values) {
  std::string text = "[";
  for (std::size_t i = 0; i < values.size(); ++i) {
    text += (i == 0 ? "" : ",") + quoted(values[i]);
  }
  return text + "]";
}

/// `"name": ..., "unit": ..., "meaning": ...`
std::string named(const history::Naming& naming) {
  return fmt::format("\"name\": {}, \"unit\": {}, \"meaning\": {}", quoted(naming.name),
                     text_or_null(naming.units), quoted(naming.long_name));
}

/// Members of an array of the file, with commas between.
void write_all(Batch& batch, const char* key, std::size_t count,
               const std::function<void(std::size_t)>& write) {
  batch.write(fmt::format(",\n\"{}\": [", key));
  for (std::size_t i = 0; i < count; ++i) {
    batch.write(i == 0 ? "\n" : ",\n");
    write(i);
  }
  batch.write("]");
}

std::string run(const Histories& histories) {
  std::string text = "{\"schema\": \"ampstair-export/1\",\n\"run\": {";
  for (const char* name :
       {"title", "arrangement", "sheet_name", "sheet_sha256", "program", "commit", "created"}) {
    text += fmt::format("\"{}\": {}, ", name, quoted(histories.attribute(name)));
  }
  return text + fmt::format("\"finished\": {}, \"beyond\": {}}}",
                            histories.finished() ? "true" : "false",
                            text_or_null(histories.beyond()));
}

class Writer {
 public:
  Writer(const Histories& histories, Batch& batch)
      : histories_(histories), batch_(batch), series_(histories.series()) {}

  void write() {
    batch_.write(run(histories_));
    const auto times = histories_.times();
    rows_ = times.size();
    batch_.write(
        ",\n\"time\": {\"unit\": \"s\", \"meaning\": \"time since the start of the march\", "
        "\"values\": " +
        numbers(times, false) + "}");
    const auto axes = axes_met();
    write_all(batch_, "axes", axes.size(), [&](std::size_t i) { axis(axes[i]); });
    write_all(batch_, "histories", series_.size(), [&](std::size_t i) { history(series_[i]); });
    auto tables = histories_.tables();
    std::erase(tables, cells);
    write_all(batch_, "tables", tables.size(), [&](std::size_t i) { table(tables[i]); });
    batch_.write("}\n");
  }

 private:
  [[nodiscard]] std::vector<std::string> axes_met() const {
    std::vector<std::string> axes;
    for (const Series& series : series_) {
      if (!series.axis.empty() && std::find(axes.begin(), axes.end(), series.axis) == axes.end()) {
        axes.push_back(series.axis);
      }
    }
    return axes;
  }

  void axis(const std::string& name) {
    batch_.write(fmt::format("{{{}, \"values\": {}}}", named(histories_.naming(name)),
                             numbers(histories_.axis(name), false)));
  }

  void history(const Series& series) {
    const bool single = series.precision == history::Precision::single;
    batch_.write(fmt::format("{{{}, \"source\": \"model\", \"axis\": {}, \"values\": ",
                             named(series.naming), text_or_null(series.axis)));
    if (series.axis.empty()) {
      batch_.write(numbers(histories_.scalar(series.naming.name), single) + "}");
      return;
    }
    const std::size_t width = histories_.axis(series.axis).size();
    const std::size_t at_once =
        std::max<std::size_t>(1, block_values / std::max<std::size_t>(1, width));
    batch_.write("[");
    for (std::size_t first = 0; first < rows_; first += at_once) {
      const std::size_t count = std::min(at_once, rows_ - first);
      const auto block = histories_.rows(series.naming.name, first, count);
      for (std::size_t i = 0; i < count; ++i) {
        batch_.write((first + i == 0 ? "\n" : ",\n") +
                     numbers(block.data() + i * width, width, single));
      }
    }
    batch_.write("]}");
  }

  void table(const std::string& name) {
    batch_.write(fmt::format("{{\"name\": {}, \"meaning\": {}, \"columns\": [", quoted(name),
                             quoted(histories_.naming(name).long_name)));
    const auto columns = histories_.columns(name);
    for (std::size_t i = 0; i < columns.size(); ++i) {
      const auto naming = histories_.naming(name + "/" + columns[i]);
      batch_.write(fmt::format("{}{{{}, \"values\": {}}}", i == 0 ? "\n  " : ",\n  ", named(naming),
                               naming.units.empty()
                                   ? texts(histories_.texts(name, columns[i]))
                                   : numbers(histories_.numbers(name, columns[i]), false)));
    }
    batch_.write("]}");
  }

  const Histories& histories_;
  Batch& batch_;
  std::vector<Series> series_;
  std::size_t rows_ = 0;
};

}  // namespace

std::filesystem::path export_json(const Histories& histories, const std::filesystem::path& file,
                                  bool overwrite) {
  const auto directory = file.has_parent_path() ? file.parent_path() : std::filesystem::path(".");
  Batch batch(directory, {file.filename().string()}, overwrite);
  batch.begin(file.filename().string());
  Writer(histories, batch).write();
  batch.publish();
  return file;
}

}  // namespace ampstair::post::tables
