// SPDX-License-Identifier: MIT
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "diagnostics/problem.hpp"
#include "scenario/arrangement.hpp"
#include "scenario/load.hpp"

namespace {

namespace fs = std::filesystem;
using namespace ampstair;
using namespace ampstair::scenario;

/// A folder of its own for a sheet and its load.
class Bench {
 public:
  Bench() {
    std::string pattern = (fs::temp_directory_path() / "ampstair-load-XXXXXX").string();
    REQUIRE(::mkdtemp(pattern.data()) != nullptr);
    folder_ = pattern;
  }
  ~Bench() { fs::remove_all(folder_); }
  Bench(const Bench&) = delete;
  Bench& operator=(const Bench&) = delete;

  void load(const std::string& text) const { std::ofstream(folder_ / "day.csv") << text; }

  [[nodiscard]] Loaded read(const std::string& steps, const std::string& mode = "current") const {
    const std::string text =
        "format: run-sheet 1\ntitle: small\nwire:\n  metal: {gauge: No. 14}\nrun:\n"
        "  - {piece: cut-end, name: a}\n  - {piece: open, name: leg, length: 1 m}\n"
        "  - {piece: cut-end, name: b}\naround: {air: 20 degC}\nsupply: {mode: " +
        mode + "}\nshape: any\nstaircase: " + steps + "\n";
    return load_text(text, (folder_ / "small.yaml").string(), as_built);
  }
  [[nodiscard]] std::vector<Step> steps(const std::string& steps,
                                        const std::string& mode = "current") const {
    try {
      return read(steps, mode).scenario.staircase;
    } catch (const diagnostics::InputError& error) {
      std::ostringstream told;
      error.problems().print(told);
      FAIL(told.str());
      throw;
    }
  }
  /// "line:column code" of every fault.
  [[nodiscard]] std::string faults(const std::string& steps,
                                   const std::string& mode = "current") const {
    std::string all;
    try {
      static_cast<void>(read(steps, mode));
    } catch (const diagnostics::InputError& error) {
      for (const auto& problem : error.problems().sorted()) {
        all += std::to_string(problem.place.line) + ":" + std::to_string(problem.place.column) +
               " " + problem.code + "\n";
      }
    }
    return all;
  }

 private:
  fs::path folder_;
};

}  // namespace

TEST_CASE("a ramp begins where the step before ended, and at nothing after a rest") {
  const auto steps = Bench().steps(
      "[{ramp_to: 30 A, for: 5 min}, {hold: 40 A, for: 5 min}, {ramp_to: 10 A, for: 1 min}, "
      "{ramp_to: 0 A, for: 10 s}, {rest: 5 min}, {ramp_to: 20 A, for: 100 s}]");
  REQUIRE(steps.size() == 6);
  const double from[] = {0.0, 0.0, 40.0, 10.0, 0.0, 0.0};
  const double slope[] = {0.1, 0.0, -0.5, -1.0, 0.0, 0.2};
  for (const std::size_t i : {0U, 2U, 3U, 5U}) {
    REQUIRE(steps[i].legs.size() == 1);
    CHECK(steps[i].legs[0].level == Approx(from[i]).margin(1e-12));
    CHECK(steps[i].legs[0].slope == Approx(slope[i]));
  }
  CHECK(steps[1].legs.empty());
  CHECK(steps[2].level == 40.0);  // the highest asked
}

TEST_CASE("a cycle is its steps again and again") {
  const auto steps = Bench().steps(
      "[{cycle: [{hold: 22 A, for: 10 min}, {ramp_to: 0 A, for: 30 s}, {rest: 10 "
      "min}], times: 6}, {hold: 5 A, for: 1 min}]");
  REQUIRE(steps.size() == 19);
  for (std::size_t turn = 0; turn < 6; ++turn) {
    CHECK(steps[3 * turn].level == 22.0);
    CHECK(steps[3 * turn + 1].legs[0].level == 22.0);
    CHECK(steps[3 * turn + 2].kind == Step::Kind::rest);
  }
}

TEST_CASE("a step may end by a rule, at the latest when it says") {
  const auto steps = Bench().steps(
      "[{hold: 31 A, until: settled 1 K/h, at_most: 8 h}, {rest: 2 h, until: settled by tenths}]");
  CHECK(steps[0].until == watch::SettlingRule::one_kelvin_in_an_hour);
  CHECK(steps[0].duration == 8.0 * 3600.0);
  CHECK(steps[1].until == watch::SettlingRule::no_change_by_tenths);
  CHECK(steps[1].duration == 2.0 * 3600.0);
}

TEST_CASE("a load is read from its file in its units") {
  Bench bench;
  bench.load(
      "# logged on a bench\r\ntime [min], current [mA]\r\n0,0\r\n1, 5000\r\n\r\n2,5000\r\n"
      "3,1e4\r\n4,0\r\n");
  auto steps = bench.steps("[{load: day.csv}]");
  REQUIRE(steps.size() == 1);
  CHECK(steps[0].kind == Step::Kind::hold_current);
  CHECK(steps[0].duration == 240.0);
  CHECK(steps[0].level == 10.0);
  CHECK(steps[0].load == "day.csv");
  REQUIRE(steps[0].legs.size() == 3);  // the row at 2 min changes nothing
  CHECK(steps[0].legs[1].from == 60.0);
  CHECK(steps[0].legs[1].level == 5.0);
  CHECK(steps[0].legs[2].level == 10.0);
  steps = bench.steps("[{load: day.csv, between: linear, for: 5 min}]");
  CHECK(steps[0].duration == 300.0);
  REQUIRE(steps[0].legs.size() == 5);
  CHECK(steps[0].legs[2].slope == Approx(5.0 / 60.0));
  CHECK(steps[0].legs[3].slope == Approx(-10.0 / 60.0));
  CHECK(steps[0].legs[4].level == 0.0);
  CHECK(steps[0].legs[4].slope == 0.0);
  CHECK(bench.steps("[{load: day.csv, for: 2 min}]")[0].legs.size() == 2);
  bench.load("time [s], voltage [V]\n0, 1\n10, 2\n");
  CHECK(bench.steps("[{load: day.csv}]", "voltage")[0].kind == Step::Kind::hold_voltage);
}

TEST_CASE("a day of a row a minute is read") {
  Bench bench;
  std::string text = "time [min], current [A]\n";
  for (int minute = 0; minute < 1440; ++minute) {
    text += std::to_string(minute) + ", " + std::to_string(10 + minute % 7) + "\n";
  }
  bench.load(text);
  const auto steps = bench.steps("[{load: day.csv, for: 24 h}]");
  CHECK(steps[0].legs.size() == 1440);
  CHECK(steps[0].duration == 86400.0);
}

TEST_CASE("faults of a load are told at their places in its file") {
  Bench bench;
  const std::string follow = "[{load: day.csv}]";
  CHECK(bench.faults("[{load: night.csv}]") == "12:20 E190\n");
  const auto told = [&](const std::string& text) {
    bench.load(text);
    return bench.faults(follow);
  };
  CHECK(told("0, 1\n1, 2\n") == "1:1 E191\n1:4 E191\n");
  CHECK(told("time [min]\n0\n1\n") == "1:1 E191\n");
  CHECK(told("time [min], amps [A]\n0, 1\n1, 2\n") == "1:13 E191\n");
  CHECK(told("time [min], current [V]\n0, 1\n1, 2\n") == "1:13 E111\n");
  CHECK(told("time [min], current [A]\n0, 1\n1, x\n2, -3\n3; 4\n") ==
        "3:4 E192\n4:4 E130\n5:1 E192\n");
  CHECK(told("time [min], current [A]\n1, 1\n3, 2\n3, 4\n") == "2:1 E193\n4:1 E193\n");
  CHECK(told("time [min], current [A]\n0, 1\n") == "1:1 E193\n");
  CHECK(told("time [s], voltage [V]\n0, 1\n5, 1\n") == "12:20 E144\n");
}

TEST_CASE("keys of a step that do not belong together are told") {
  const Bench bench;
  CHECK(bench.faults("[{hold: 1 A, until: settled 1 K/h, for: 1 h}]") == "12:52 E147\n");
  CHECK(bench.faults("[{hold: 1 A, until: settled 1 K/h}]") == "12:32 E147\n");
  CHECK(bench.faults("[{hold: 1 A, at_most: 1 h}]") == "12:34 E147\n");
  CHECK(bench.faults("[{ramp_to: 1 A, for: 1 h, until: settled 1 K/h}]") == "12:45 E148\n");
  CHECK(bench.faults("[{hold: 1 A, for: 1 h, between: hold}]") == "12:44 E148\n");
  CHECK(bench.faults("[{hold: 1 A, for: 1 h, times: 3}]") == "12:42 E148\n");
  CHECK(bench.faults("[{cycle: [{rest: 1 h}]}]") == "12:13 E149\n");
  CHECK(bench.faults("[{cycle: [{rest: 1 h}], times: 2, for: 3 h}]") == "12:13 E149\n");
  CHECK(bench.faults("[{ramp_volts_to: 1 V, for: 1 h}]") == "12:29 E144\n");
  CHECK(bench.faults("[{hold: 1 A, until: settled, at_most: 1 h}]").find("12:32 E") == 0);
}
