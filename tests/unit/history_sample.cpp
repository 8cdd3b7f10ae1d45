// SPDX-License-Identifier: MIT
#include "history_sample.hpp"

#include <stdlib.h>

#include <algorithm>
#include <span>
#include <stdexcept>

namespace ampstair::test {

ScratchFolder::ScratchFolder() {
  std::string name = (std::filesystem::temp_directory_path() / "ampstair-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) {
    throw std::runtime_error("no scratch folder can be made for the test");
  }
  path_ = name;
}

std::vector<std::string> ScratchFolder::names() const {
  std::vector<std::string> found;
  for (const auto& entry : std::filesystem::directory_iterator(path_)) {
    found.push_back(entry.path().filename().string());
  }
  std::ranges::sort(found);
  return found;
}

history::Layout sample_layout() {
  history::Layout layout{.title = "A sample",
                         .program = "ampstair 0.1.0",
                         .commit = "unknown",
                         .sheet_text = "title: A sample\n# 12 °C, \"as built\"\n",
                         .sheet_name = "sample.yaml",
                         .arrangement = "as built",
                         .beyond = {},
                         .axes = {},
                         .series = {},
                         .tables = {}};
  layout.axes.push_back({{"position", "distance along the run", "m"}, {}});
  for (std::size_t k = 0; k < sample_places; ++k) {
    layout.axes.back().values.push_back(0.005 * static_cast<double>(k));
  }
  layout.axes.push_back({{"cell", "number of the cell", "1"}, {0, 1, 2}});
  layout.series.push_back({{"current", "current got", "A"}, "", history::Precision::full});
  layout.series.push_back({{"temperature", "temperature of the conductor", "degC"},
                           "position",
                           history::Precision::single});
  layout.tables.push_back(
      {"pieces",
       "the pieces of the run",
       {{{"name", "name of the piece", ""}, std::vector<std::string>{"südliches Bein", ""}},
        {{"begin", "where it begins", "m"}, std::vector<double>{0.0, 1.25}},
        {{"rank", "order of the pieces", "1"}, std::vector<std::int64_t>{1, -2}}}});
  layout.tables.push_back({"probes",
                           "the probes",
                           {{{"name", "name of the probe", ""}, std::vector<std::string>{}},
                            {{"position", "where it sits", "m"}, std::vector<double>{}}}});
  return layout;
}

double sample_time(std::size_t row) {
  return 10.0 * static_cast<double>(row);
}

double sample_current(std::size_t row) {
  return 14.0 + static_cast<double>(row);
}

double sample_temperature(std::size_t row, std::size_t place) {
  return static_cast<double>(row) + 0.125 * static_cast<double>(place);
}

void append_sample_row(history::RecordWriter& writer, std::size_t row) {
  const std::array current{sample_current(row)};
  std::array<double, sample_places> temperature{};
  for (std::size_t place = 0; place < sample_places; ++place) {
    temperature[place] = sample_temperature(row, place);
  }
  const std::array<std::span<const double>, 2> values{current, temperature};
  writer.append(sample_time(row), values);
}

void write_sample(const std::filesystem::path& path, std::size_t rows,
                  history::IfExists if_exists) {
  history::RecordWriter writer(path, sample_layout(), if_exists);
  for (std::size_t row = 0; row < rows; ++row) {
    append_sample_row(writer, row);
  }
  writer.finish({});
}

}  // namespace ampstair::test
