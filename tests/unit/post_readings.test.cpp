// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "checks/judge.hpp"
#include "checks/readings.hpp"
#include "post_sample.hpp"

using namespace ampstair;
using post::checks::InstrumentReading;

namespace {

using Texts = std::vector<std::string>;
using Numbers = std::vector<double>;

constexpr double zero_celsius = 273.15;

std::vector<InstrumentReading> read(const test::Run& run) {
  const auto histories = test::in_memory(run);
  return post::checks::readings(*histories, post::checks::judge(*histories, {}));
}

/// A camera at the hottest place of the sample, where the surface comes to 75 degC.
test::Run with_camera(const std::string& part, double ceiling) {
  auto run = test::sample_run();
  run.set_table(
      {"camera",
       "",
       {test::column("name", Texts{"spot"}), test::column("part", Texts{part}),
        test::column("history", Texts{"surface_temperature"}),
        test::column("position", Numbers{1.65}), test::column("emissivity", Numbers{0.92}),
        test::column("width", Numbers{5e-3}), test::column("emissivity_set", Numbers{0.95}),
        test::column("reflected", Numbers{11.0}), test::column("ceiling", Numbers{ceiling}),
        test::column("distance", Numbers{std::nan("")}),
        test::column("pixel_angle", Numbers{std::nan("")})}});
  return run;
}

/// A hand for a second at the hottest place of the sample, where the surface comes to 75 degC and
/// the conductor to 80 degC.
/// @param volts the supply's limit; not a number: none is told
test::Run with_hand(const std::string& part, const std::string& history, double volts,
                    double contact = 1.0) {
  auto run = test::sample_run();
  run.set_table(
      {"touch",
       "",
       {test::column("name", Texts{"spot"}), test::column("part", Texts{part}),
        test::column("history", Texts{history}), test::column("position", Numbers{1.65}),
        test::column("effusivity", Numbers{500.0}), test::column("contact", Numbers{contact})}});
  Texts path = {"around/altitude"};
  Numbers value = {0.0};
  if (!std::isnan(volts)) {
    path.emplace_back("supply/voltage_limit");
    value.push_back(volts);
  }
  const Numbers by_default(path.size(), 0.0);
  const Texts blank(path.size(), "");
  run.set_table(
      {"values",
       "",
       {test::column("path", path), test::column("value", value), test::column("unit", blank),
        test::column("source", blank), test::column("by_default", by_default)}});
  return run;
}

bool says(const InstrumentReading& reading, const std::string& words) {
  return reading.remark.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("an instrument put to a covering that is gone shows nothing", "[post]") {
  auto run = with_camera("braid", std::nan(""));
  const auto whole = read(run);
  REQUIRE_FALSE(whole.empty());
  // In the same piece, some time before the last step ends.
  run.set_table({"validity",
                 "",
                 {test::column("code", Texts{"V330"}), test::column("text", Texts{"gone"}),
                  test::column("severity", Texts{"note"}), test::column("part", Texts{"covering"}),
                  test::column("unit", Texts{"degC"}), test::column("time", Numbers{900.0}),
                  test::column("position", Numbers{1.60}), test::column("current", Numbers{40.0}),
                  test::column("value", Numbers{330.0}), test::column("limit", Numbers{330.0})}});
  const auto bare = read(run);
  REQUIRE(bare.size() == whole.size());
  CHECK(bare.front().shown == whole.front().shown);
  CHECK(std::isnan(bare.back().shown));
  CHECK(std::isnan(bare.back().real));
  CHECK(bare.back().remark.find("gone at 15.0 min") != std::string::npos);
}

TEST_CASE("a hand is told off above a burn threshold and never invited", "[post]") {
  // ISO 13732-1 (from memory): bare metal 65 to 70 degC for 1 s, rubber and cloth 85 to 93 degC;
  // the conductor is at 50 degC after the first step and at 80 degC after the second.
  const auto metal = read(with_hand("conductor", "conductor_temperature", 2.2));
  REQUIRE(metal.size() == 2);
  CHECK(says(metal[0], "below the burn threshold"));
  CHECK(says(metal[0], "no invitation to touch"));
  CHECK(says(metal[1], "above the burn threshold: do not touch"));
  const auto braid = read(with_hand("braid", "surface_temperature", 2.2));
  CHECK(says(braid[1], "below the burn threshold"));  // 75 degC
  // (500 * 75 + 1200 * 33) / 1700 = 45.35 degC
  CHECK(braid[1].shown - zero_celsius == Approx(45.35).margin(0.01));
  CHECK(says(read(with_hand("braid", "surface_temperature", 2.2, 60.0))[1], "do not touch"));
  CHECK(says(read(with_hand("braid", "surface_temperature", 2.2, 0.2))[1], "cannot say"));
  for (const auto& reading : {metal[0], metal[1], braid[0], braid[1]}) {
    CHECK_FALSE(says(reading, "pain"));
    CHECK_FALSE(says(reading, "touch to test"));
  }
}

TEST_CASE("no wire is touched whose supply is not known to be extra-low voltage", "[post]") {
  // 50 V a.c.: IEC 61140 (from memory, very sure).
  CHECK(says(read(with_hand("braid", "surface_temperature", 50.0))[0], "below the burn threshold"));
  CHECK(says(read(with_hand("braid", "surface_temperature", 51.0))[0],
             "do not touch: a live conductor at up to 51.0 V"));
  CHECK(says(read(with_hand("conductor", "conductor_temperature", 120.0))[0], "do not touch"));
  CHECK(says(read(with_hand("rubber", "surface_temperature", std::nan("")))[0],
             "nothing says that its supply is extra-low voltage"));
  CHECK(says(read(with_hand("ceramic", "surface_temperature", 230.0))[0],
             "below the burn threshold"));
  auto by_volts = with_hand("braid", "surface_temperature", std::nan(""));
  by_volts.set_table(
      {"steps",
       "",
       {test::column("kind", Texts{"hold_voltage", "rest"}),
        test::column("level", Numbers{12.0, 0.0}), test::column("begin", Numbers{0.0, 600.0}),
        test::column("end", Numbers{600.0, 1200.0})}});
  CHECK(says(read(by_volts)[0], "below the burn threshold"));
}

TEST_CASE("a camera's reading stands beside the surface it looks at, step by step", "[post]") {
  const auto found = read(with_camera("braid", std::nan("")));
  REQUIRE(found.size() == 2);
  CHECK(found.back().step == 2);
  CHECK(found.back().real == Approx(75.0 + zero_celsius).margin(0.01));
  // 75 degC at 0.92 with 11 degC mirrored, told 0.95: 73.38 degC, computed apart by summing
  // Planck's law over 8 to 14 um.
  CHECK(found.back().shown - zero_celsius == Approx(73.38).margin(0.02));
}

TEST_CASE("a camera at its ceiling says so, and one that sees nothing gives no number", "[post]") {
  const auto at_end = read(with_camera("braid", 60.0)).back();
  CHECK(at_end.shown == Approx(60.0 + zero_celsius));
  CHECK(at_end.remark.find("at or above") != std::string::npos);
  const auto hidden = read(with_camera("", std::nan(""))).back();
  CHECK(std::isnan(hidden.shown));
  CHECK_FALSE(hidden.remark.empty());
}

TEST_CASE("a thermocouple follows its place with its lag", "[post]") {
  auto run = test::sample_run(10.0);
  run.set_table({"thermocouples",
                 "",
                 {test::column("name", Texts{"TC1"}), test::column("place", Texts{"spot"}),
                  test::column("under", Texts{""}), test::column("position", Numbers{1.65}),
                  test::column("lag", Numbers{40.0})}});
  const auto found = read(run);
  REQUIRE(found.size() == 2);
  // The surface rises by 0.05 K/s: after many lags the bead is 0.05 * 40 = 2.0 K behind.
  CHECK(found.back().real - found.back().shown == Approx(2.0).margin(1e-3));
}

TEST_CASE("taps read the current times what lies between them", "[post]") {
  auto run = test::sample_run(60.0, 20);
  const auto& position = run.layout.axes.front().values;
  Numbers begin, end;
  for (std::size_t j = 0; j < position.size(); ++j) {
    begin.push_back(0.1 * static_cast<double>(j));
    end.push_back(0.1 * static_cast<double>(j + 1));
  }
  run.set_table({"taps",
                 "",
                 {test::column("name", Texts{"a to b"}), test::column("begin", Numbers{0.25}),
                  test::column("end", Numbers{1.75}), test::column("error", Numbers{0.005})}});
  run.set_table({"stations",
                 "",
                 {test::column("begin", begin), test::column("end", end),
                  test::column("metres_per_area", Numbers(position.size(), 3.0e4))}});
  run.set_table({"resistivity",
                 "",
                 {test::column("temperature", Numbers{-100.0, 400.0}),
                  test::column("value", Numbers{1.7241e-8 * (1.0 - 0.00393 * 120.0),
                                                1.7241e-8 * (1.0 + 0.00393 * 380.0)})}});
  const auto found = read(run);
  REQUIRE(found.size() == 2);
  const auto histories = test::in_memory(run);
  const auto last = histories->rows("conductor_temperature", histories->times().size() - 1, 1);
  double ohm = 0.0;
  double degrees = 0.0;
  for (std::size_t j = 2; j <= 17; ++j) {
    const double part = j == 2 || j == 17 ? 0.5 : 1.0;
    ohm += part * 3.0e4 * 1.7241e-8 * (1.0 + 0.00393 * (last[j] - 20.0));
    degrees += part * last[j] / 15.0;
  }
  CHECK(found.back().of == InstrumentReading::Of::volts);
  CHECK(found.back().shown == Approx(39.5 * ohm).epsilon(1e-9));
  // Along a straight line the mean of the resistance is that of the temperature.
  const auto mean = found.back().remark;
  CHECK(std::stod(mean.substr(mean.find("wire ") + 5)) == Approx(degrees).margin(0.06));
}
