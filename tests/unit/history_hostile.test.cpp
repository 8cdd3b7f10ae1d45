// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cstdint>
#include <cstring>
#include <fstream>
#include <random>
#include <sstream>

#include "diagnostics/problem.hpp"
#include "history/reader.hpp"
#include "history_damaged_records.hpp"
#include "history_sample.hpp"

using namespace ampstair;
using Catch::Contains;
using diagnostics::InputError;
using history::RecordReader;

namespace {

std::string bytes_of(const std::filesystem::path& file) {
  std::ostringstream bytes;
  bytes << std::ifstream(file, std::ios::binary).rdbuf();
  return bytes.str();
}

void write_bytes(const std::filesystem::path& file, const std::string& bytes) {
  std::ofstream(file, std::ios::binary) << bytes;
}

// HDF5 1.10 keeps texts and references in "global heaps" (signature GCOL, length as a 64-bit number
// 8 bytes later) without a checksum and trusts the lengths in them: damage there can crash the
// library itself, h5dump as well, so no reader built on it can promise better.
bool in_global_heap(const std::string& bytes, std::size_t place) {
  for (auto heap = bytes.find("GCOL"); heap != std::string::npos && heap <= place;
       heap = bytes.find("GCOL", heap + 1)) {
    std::uint64_t length = 0;
    std::memcpy(&length, bytes.data() + heap + 8, sizeof(length));
    if (place < heap + length) {
      return true;
    }
  }
  return false;
}

// Reads everything the sample has. Whatever is wrong must come out as an InputError: any other
// exception leaves here and fails the test, as a crash does.
void read_or_refuse(const std::filesystem::path& file) {
  try {
    const RecordReader reader(file);
    (void)reader.finished();
    (void)reader.sheet_text();
    (void)reader.scalar("current");
    (void)reader.rows("temperature", 0, reader.times().size());
    (void)reader.texts("pieces", "name");
    (void)reader.numbers("pieces", "begin");
  } catch (const InputError& error) {
    CHECK_FALSE(error.problems().empty());
  }
}

}  // namespace

TEST_CASE("What is no record is named so", "[history]") {
  const test::ScratchFolder folder;
  CHECK_THROWS_WITH(RecordReader(folder / "none.h5"), Contains("E710") && Contains("no record"));
  CHECK_THROWS_WITH(RecordReader(folder.path()), Contains("E710") && Contains("not a file"));
  write_bytes(folder / "empty.h5", "");
  CHECK_THROWS_WITH(RecordReader(folder / "empty.h5"), Contains("E711"));
  write_bytes(folder / "text.h5", "title: a run sheet\n");
  CHECK_THROWS_WITH(RecordReader(folder / "text.h5"), Contains("E711") && Contains("text.h5"));
  test::make_empty_file(folder / "other.h5");
  CHECK_THROWS_WITH(RecordReader(folder / "other.h5"), Contains("E711") && Contains("record_kind"));
}

TEST_CASE("Kind and format version are checked first and told", "[history]") {
  const test::ScratchFolder folder;
  const auto record = folder / "a.h5";
  test::write_sample(record, 1);
  SECTION("another kind") {
    test::set_text_attribute(record, "record_kind", "ampstair study");
    CHECK_THROWS_WITH(RecordReader(record),
                      Contains("'ampstair study'") && Contains("'ampstair march'"));
  }
  SECTION("a later major version") {
    test::set_format_version(record, 7, 2);
    test::remove_object(record, "time");
    CHECK_THROWS_WITH(RecordReader(record),
                      Contains("E712") && Contains("7.2") && Contains("reads 1.x"));
  }
  SECTION("a later minor version is read") {
    test::set_format_version(record, 1, 9);
    CHECK(RecordReader(record).times().size() == 1);
  }
  SECTION("a version that is no pair of numbers") {
    test::set_text_attribute(record, "format_version", "1.0");
    CHECK_THROWS_WITH(RecordReader(record), Contains("E711") && Contains("format_version"));
  }
}

TEST_CASE("Missing and mistaken datasets are named, with the file", "[history]") {
  const test::ScratchFolder folder;
  const auto record = folder / "a.h5";
  test::write_sample(record, 4);
  SECTION("no time") {
    test::remove_object(record, "time");
    CHECK_THROWS_WITH(RecordReader(record), Contains("a.h5") && Contains("'time'"));
  }
  SECTION("time of texts") {
    test::replace_by_texts(record, "time", 4);
    CHECK_THROWS_AS(RecordReader(record).times(), InputError);
  }
  SECTION("an axis of another shape") {
    test::replace_by_block(record, "position");
    CHECK_THROWS_WITH(RecordReader(record).axis("position"), Contains("3 dimensions"));
  }
  SECTION("a history of another shape") {
    test::replace_by_block(record, "temperature");
    CHECK_THROWS_WITH(RecordReader(record).rows("temperature", 0, 1),
                      Contains("'temperature'") && Contains("3 dimensions"));
  }
  SECTION("texts of fixed length") {
    test::replace_by_texts(record, "pieces/name", 2);
    CHECK_THROWS_WITH(RecordReader(record).texts("pieces", "name"), Contains("'pieces/name'"));
  }
  SECTION("numbers where texts should be, and the other way") {
    const RecordReader reader(record);
    CHECK_THROWS_WITH(reader.texts("pieces", "begin"), Contains("does not hold texts"));
    CHECK_THROWS_WITH(reader.numbers("pieces", "name"), Contains("does not hold numbers"));
    CHECK_THROWS_WITH(reader.integers("pieces", "begin"), Contains("whole numbers"));
    CHECK_THROWS_WITH(reader.axis("pieces"), Contains("'pieces'"));
  }
  SECTION("no run sheet") {
    test::remove_object(record, "provenance/run_sheet_text");
    CHECK_THROWS_WITH(RecordReader(record).sheet_text(), Contains("run_sheet_text"));
  }
  SECTION("no mark of having finished") {
    test::remove_attribute(record, "finished");
    CHECK_THROWS_WITH(RecordReader(record).finished(), Contains("'finished'"));
  }
  SECTION("rows that are not there") {
    CHECK_THROWS_WITH(RecordReader(record).rows("temperature", 2, 3), Contains("4 rows"));
    CHECK_THROWS_AS(RecordReader(record).rows("temperature", SIZE_MAX, 2), InputError);
  }
}

TEST_CASE("A batch appended in part ends with the shortest history", "[history]") {
  const test::ScratchFolder folder;
  const auto record = folder / "a.h5";
  test::write_sample(record, 4);
  test::lengthen(record, "temperature", 36);
  test::lengthen(record, "time", 20);
  const RecordReader reader(record);
  CHECK(reader.times().size() == 4);
  CHECK(reader.scalar("current").size() == 4);
  CHECK_THROWS_AS(reader.rows("temperature", 4, 1), InputError);
}

TEST_CASE("A claim of endless rows is refused, not allocated", "[history]") {
  const test::ScratchFolder folder;
  const auto record = folder / "a.h5";
  test::write_sample(record, 4);
  for (const char* name : {"time", "current", "temperature"}) {
    test::lengthen(record, name, std::size_t{1} << 50U);
  }
  const RecordReader reader(record);
  CHECK_THROWS_WITH(reader.times(), Contains("too large"));
  CHECK(reader.rows("temperature", 3, 1).front() == test::sample_temperature(3, 0));
}

TEST_CASE("A truncated record is read or refused, wherever it is cut", "[history]") {
  const test::ScratchFolder folder;
  test::write_sample(folder / "a.h5", 50);
  const std::string whole = bytes_of(folder / "a.h5");
  for (std::size_t length = 0; length < whole.size(); length += 97) {
    write_bytes(folder / "cut.h5", whole.substr(0, length));
    REQUIRE_NOTHROW(read_or_refuse(folder / "cut.h5"));
  }
}

TEST_CASE("Damaged bytes outside the global heaps are read or refused", "[history]") {
  const test::ScratchFolder folder;
  test::write_sample(folder / "a.h5", 50);
  const std::string whole = bytes_of(folder / "a.h5");
  std::mt19937 generator(7);
  std::uniform_int_distribution<std::size_t> place(0, whole.size() - 1);
  for (int turn = 0; turn < 200; ++turn) {
    std::string damaged = whole;
    for (int k = 0; k < 3; ++k) {
      const std::size_t where = place(generator);
      if (!in_global_heap(whole, where)) {
        damaged[where] = static_cast<char>(generator() & 0xFFU);
      }
    }
    write_bytes(folder / "bad.h5", damaged);
    REQUIRE_NOTHROW(read_or_refuse(folder / "bad.h5"));
  }
}
