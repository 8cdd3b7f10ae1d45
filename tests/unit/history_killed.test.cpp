// SPDX-License-Identifier: MIT
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <chrono>
#include <random>
#include <thread>

#include "history/reader.hpp"
#include "history/writer.hpp"
#include "history_sample.hpp"

using namespace ampstair;

namespace {

// Writes and flushes without a pause, so that most kills fall into a flush.
[[noreturn]] void write_for_ever(const std::filesystem::path& record) {
  history::RecordWriter writer(record, test::sample_layout(), history::IfExists::refuse);
  for (std::size_t row = 0;; ++row) {
    test::append_sample_row(writer, row);
    if (row % 5 == 4) {
      writer.flush();
    }
  }
}

void check_rows(const std::filesystem::path& record) {
  const history::RecordReader reader(record);
  CHECK_FALSE(reader.finished());
  const auto times = reader.times();
  const auto current = reader.scalar("current");
  const auto temperature = reader.rows("temperature", 0, times.size());
  REQUIRE(current.size() == times.size());
  CHECK(times.size() % 5 == 0);
  for (std::size_t row = 0; row < times.size(); ++row) {
    REQUIRE(times[row] == test::sample_time(row));
    REQUIRE(current[row] == test::sample_current(row));
    REQUIRE(temperature[row * test::sample_places] == test::sample_temperature(row, 0));
  }
}

}  // namespace

TEST_CASE("A writer killed at any instant leaves a record that ends at a flush", "[history]") {
  const test::ScratchFolder folder;
  std::mt19937 generator(20'240'611);
  std::uniform_int_distribution<int> microseconds(0, 30'000);
  for (int kill_number = 0; kill_number < 40; ++kill_number) {
    const auto record = folder / ("a" + std::to_string(kill_number) + ".h5");
    const pid_t child = fork();
    if (child == 0) {
      write_for_ever(record);
    }
    while (!std::filesystem::exists(record)) {
      std::this_thread::sleep_for(std::chrono::microseconds(200));
    }
    std::this_thread::sleep_for(std::chrono::microseconds(microseconds(generator)));
    kill(child, SIGKILL);
    waitpid(child, nullptr, 0);
    check_rows(record);
    std::filesystem::remove(record);
  }
}
