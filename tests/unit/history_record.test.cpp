// SPDX-License-Identifier: MIT
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "history/reader.hpp"
#include "history/writer.hpp"
#include "history_sample.hpp"

using namespace ampstair;
using history::IfExists;
using history::RecordReader;
using history::RecordWriter;

TEST_CASE("A record gives back every row, beyond a chunk and a batch", "[history]") {
  const test::ScratchFolder folder;
  const std::size_t rows = GENERATE(0U, 1U, 31U, 32U, 33U, 1100U);
  test::write_sample(folder / "a.h5", rows);
  const RecordReader reader(folder / "a.h5");

  CHECK(reader.finished());
  const auto times = reader.times();
  const auto current = reader.scalar("current");
  REQUIRE(times.size() == rows);
  REQUIRE(current.size() == rows);
  for (std::size_t row = 0; row < rows; ++row) {
    REQUIRE(times[row] == test::sample_time(row));
    REQUIRE(current[row] == test::sample_current(row));
    const auto temperature = reader.rows("temperature", row, 1);
    REQUIRE(temperature.size() == test::sample_places);
    for (std::size_t place = 0; place < test::sample_places; ++place) {
      REQUIRE(temperature[place] == test::sample_temperature(row, place));
    }
  }
}

TEST_CASE("A record tells what its histories are", "[history]") {
  const test::ScratchFolder folder;
  test::write_sample(folder / "a.h5", 2);
  const RecordReader reader(folder / "a.h5");
  REQUIRE(reader.series().size() == 2);
  CHECK(reader.series()[0].naming.name == "current");
  CHECK(reader.series()[0].naming.units == "A");
  CHECK(reader.series()[0].naming.long_name == "current got");
  CHECK(reader.series()[0].axis.empty());
  CHECK(reader.series()[0].precision == history::Precision::full);
  CHECK(reader.series()[1].axis == "position");
  CHECK(reader.series()[1].precision == history::Precision::single);
  CHECK(reader.axis("position") == test::sample_layout().axes[0].values);
}

TEST_CASE("A record carries its sheet and its heading", "[history]") {
  const test::ScratchFolder folder;
  test::write_sample(folder / "a.h5", 1);
  const RecordReader reader(folder / "a.h5");
  CHECK(reader.sheet_text() == test::sample_layout().sheet_text);
  CHECK(reader.attribute("record_kind") == "ampstair march");
  CHECK(reader.attribute("format_version") == "1.3");
  CHECK(reader.attribute("arrangement") == "as built");
  CHECK(reader.attribute("sheet_name") == "sample.yaml");
  // sha256sum of GNU coreutils on the same bytes.
  CHECK(reader.attribute("sheet_sha256") ==
        "bb7d1d33efb0c131ed7d4f377c90c5e9fad8076f16e0f516f38b3aa04c9faf51");
}

TEST_CASE("Tables keep texts, numbers and whole numbers, and may be empty", "[history]") {
  const test::ScratchFolder folder;
  test::write_sample(folder / "a.h5", 0);
  const RecordReader reader(folder / "a.h5");
  CHECK(reader.texts("pieces", "name") == std::vector<std::string>{"südliches Bein", ""});
  CHECK(reader.numbers("pieces", "begin") == std::vector<double>{0.0, 1.25});
  CHECK(reader.integers("pieces", "rank") == std::vector<std::int64_t>{1, -2});
  CHECK(reader.integers("pieces", "entry") == std::vector<std::int64_t>{0, 1});
  CHECK(reader.texts("probes", "name").empty());
  CHECK(reader.numbers("probes", "position").empty());
  CHECK(reader.has("probes"));
  CHECK(reader.has("pieces/begin"));
  CHECK_FALSE(reader.has("pieces/end"));
  CHECK_FALSE(reader.has("watch/name"));
  CHECK_FALSE(reader.has(""));
}

TEST_CASE("Fields, closing numbers and absent values come back", "[history]") {
  const test::ScratchFolder folder;
  {
    RecordWriter writer(folder / "a.h5", test::sample_layout(), IfExists::refuse);
    const double absent = std::numeric_limits<double>::quiet_NaN();
    writer.append_field(5.0, std::array{1.0, absent, 3.0});
    writer.append_field(9.0, std::array{4.0, 5.0, 6.0});
    writer.finish(std::array{RecordWriter::Closing{"wall_time", 0.75}});
  }
  const RecordReader reader(folder / "a.h5");
  CHECK(reader.axis("fields/field_time") == std::vector<double>{5.0, 9.0});
  const auto first = reader.rows("fields/field_temperature", 0, 1);
  CHECK(first[0] == 1.0);
  CHECK(std::isnan(first[1]));
  CHECK(reader.rows("fields/field_temperature", 1, 1) == std::vector<double>{4.0, 5.0, 6.0});
  CHECK(reader.attribute("wall_time") == "0.75");
  CHECK(reader.closing("wall_time") == 0.75);
  CHECK_FALSE(reader.closing("time_error"));
  CHECK(reader.times().empty());
}

TEST_CASE("A table may come at the end, and only a finished record has it", "[history]") {
  const test::ScratchFolder folder;
  const history::Table events{
      "events", "what happened", {{{"time", "when", "s"}, std::vector<double>{1.5, 2.5}}}};
  RecordWriter writer(folder / "a.h5", test::sample_layout(), IfExists::refuse);
  CHECK_FALSE(RecordReader(folder / "a.h5").has("events"));
  writer.finish({}, std::array{events});
  const RecordReader reader(folder / "a.h5");
  CHECK(reader.finished());
  CHECK(reader.numbers("events", "time") == std::vector<double>{1.5, 2.5});
  CHECK(reader.texts("pieces", "name").size() == 2);
}

TEST_CASE("A record wider than a chunk of places is whole", "[history]") {
  const test::ScratchFolder folder;
  auto layout = test::sample_layout();
  layout.axes[0].values.resize(2500, 0.0);
  layout.series = {{{"wide", "a wide history", "1"}, "position", history::Precision::full}};
  std::vector<double> row(2500);
  {
    RecordWriter writer(folder / "a.h5", layout, IfExists::refuse);
    for (std::size_t k = 0; k < 70; ++k) {
      row.assign(row.size(), static_cast<double>(k));
      row.back() = -static_cast<double>(k);
      writer.append(static_cast<double>(k), std::array{std::span<const double>(row)});
    }
    writer.finish({});
  }
  const auto read = RecordReader(folder / "a.h5").rows("wide", 40, 30);
  for (std::size_t k = 0; k < 30; ++k) {
    REQUIRE(read[k * 2500] == static_cast<double>(k + 40));
    REQUIRE(read[k * 2500 + 2499] == -static_cast<double>(k + 40));
  }
}

TEST_CASE("A record is read beside its writer, up to the last flush", "[history]") {
  const test::ScratchFolder folder;
  RecordWriter writer(folder / "a.h5", test::sample_layout(), IfExists::refuse);
  test::append_sample_row(writer, 0);
  writer.flush();
  const RecordReader earlier(folder / "a.h5");
  test::append_sample_row(writer, 1);
  writer.flush();
  const RecordReader later(folder / "a.h5");
  CHECK(earlier.times().size() == 1);
  CHECK(later.times().size() == 2);
  CHECK_FALSE(later.finished());
}

TEST_CASE("A writer that goes without finishing leaves its rows, not finished", "[history]") {
  const test::ScratchFolder folder;
  {
    RecordWriter writer(folder / "a.h5", test::sample_layout(), IfExists::refuse);
    test::append_sample_row(writer, 0);
  }
  const RecordReader reader(folder / "a.h5");
  CHECK(reader.times().size() == 1);
  CHECK_FALSE(reader.finished());
  CHECK(folder.names() == std::vector<std::string>{"a.h5"});
}
