// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "checks/device.hpp"
#include "post_sample.hpp"

namespace {

using namespace ampstair::post::checks;

constexpr double minute = 60.0;

/// 20 A; 135 % within an hour, 200 % within two minutes (limits of low-voltage fuses after UL
/// 248-14, seen).
Device fuse() {
  return {"fuse", 20.0, 1.0, {{1.35, 60.0 * minute}, {2.0, 2.0 * minute}}, ""};
}

struct Rows {
  std::vector<double> times, current;
};

/// Steps of 22 min at 14, 22, 31, 42 and 55 A, a row a minute and two at every jump.
Rows staircase() {
  Rows rows;
  double begin = 0.0;
  for (const double amperes : {14.0, 22.0, 31.0, 42.0, 55.0}) {
    for (int k = 0; k <= 22; ++k) {
      rows.times.push_back(begin + k * minute);
      rows.current.push_back(amperes);
    }
    begin += 22.0 * minute;
  }
  return rows;
}

}  // namespace

TEST_CASE("a device has to have opened when the first of its times runs out", "[post]") {
  // By hand: 110 % from 22 min; 155 % from 44 min would run out at 104; 210 % from 66 min at 68.
  const auto rows = staircase();
  const auto found = envelope(fuse(), rows.times, rows.current);
  REQUIRE(found.earliest);
  CHECK(*found.earliest == Approx(22.0 * minute));
  REQUIRE(found.latest);
  CHECK(*found.latest == Approx(68.0 * minute));
}

TEST_CASE("crossings stand before, after or too close to the latest opening", "[post]") {
  const OpeningEnvelope found{22.0 * minute, 68.0 * minute};
  CHECK(order(found, 71.4 * minute, minute) == Order::device_first);
  CHECK(order(found, 51.2 * minute, minute) == Order::not_required);
  CHECK(order(found, 67.6 * minute, minute) == Order::cannot_say);
  CHECK(order(found, 10.0 * minute, minute) == Order::cannot_have);
  CHECK(order({}, 10.0 * minute, minute) == Order::not_required);
}

TEST_CASE("a time that is broken off runs anew", "[post]") {
  const Device device{"fuse", 10.0, std::nullopt, {{2.0, 100.0}}, ""};
  // 25 A for 90 s, a rest of 10 s, 25 A again: two times of 90 s are no 100 s.
  const std::vector<double> times = {0.0, 90.0, 90.0, 100.0, 100.0, 190.0};
  const std::vector<double> current = {25.0, 25.0, 0.0, 0.0, 25.0, 25.0};
  CHECK_FALSE(envelope(device, times, current).latest);
  CHECK_FALSE(envelope(device, times, current).earliest);
  const std::vector<double> longer = {0.0, 90.0, 90.0, 100.0, 100.0, 210.0};
  CHECK(*envelope(device, longer, current).latest == Approx(200.0));
}

TEST_CASE("on a ramp the time runs from where the current passes the multiple", "[post]") {
  const Device device{"fuse", 10.0, 1.0, {{2.0, 50.0}}, ""};
  // 0.2 A/s from 0: 10 A at 50 s, 20 A at 100 s.
  const auto found = envelope(device, {0.0, 200.0, 300.0}, {0.0, 40.0, 40.0});
  CHECK(*found.earliest == Approx(50.0));
  CHECK(*found.latest == Approx(150.0));
}

TEST_CASE("at a jump the new current counts from where its step begins", "[post]") {
  // The sample's rows are a minute apart and none lies just behind the jump at 600 s, where the
  // current goes from 20 to 39.5 A: 30 A for 90 s have run out at 690 s.
  const auto histories = ampstair::test::in_memory(ampstair::test::sample_run(60.0));
  const auto before = histories->scalar("current");
  REQUIRE(before.front() == 20.0);
  REQUIRE(before.back() == 39.5);
  const Device device{"fuse", 20.0, 1.2, {{1.5, 90.0}}, ""};
  const auto found = envelope(device, *histories);
  REQUIRE(found.latest);
  CHECK(*found.latest == Approx(690.0));
  CHECK(*found.earliest == Approx(600.0));
}
