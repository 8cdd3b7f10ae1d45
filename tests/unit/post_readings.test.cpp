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

}  // namespace

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
