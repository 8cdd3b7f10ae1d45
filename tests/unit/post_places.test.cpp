// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "checks/amounts.hpp"
#include "checks/drive.hpp"
#include "checks/places.hpp"
#include "post_sample.hpp"

using namespace ampstair;
using post::checks::Drive;
using post::checks::Places;

TEST_CASE("a place is named by its piece and the distance into it", "[post]") {
  const Places places(
      {{"A", 0.0, 0.0}, {"south leg", 0.0, 1.0}, {"T1", 1.0, 1.2}, {"B", 1.2, 1.2}});
  CHECK(places.spot(0.0).name == "south leg + 0.000 m");
  CHECK(places.spot(0.55).name == "south leg + 0.550 m");
  CHECK(places.spot(1.0).name == "T1 + 0.000 m");  // where two meet, the one that begins
  CHECK(places.spot(1.2).name == "T1 + 0.200 m");  // the end of the run
  CHECK(places.spot(7.0).name.empty());
  CHECK(Places({{"A", 0.0, 0.0}}).spot(0.0).name == "A");
}

TEST_CASE("amounts have three significant figures at most", "[post]") {
  using post::checks::figures;
  CHECK(figures(67.64, 1) == "67.6");
  CHECK(figures(119.4, 1) == "119");
  CHECK(figures(1234.0, 1) == "1230");
  CHECK(figures(0.3884, 3) == "0.388");
  CHECK(figures(0.3884, 2) == "0.39");
  CHECK(figures(9.996, 3) == "10.00");
  CHECK(figures(0.0, 2) == "0.00");
  CHECK(post::checks::span_text(30.0) == "30.0 s");
  CHECK(post::checks::span_text(1224.0) == "20.4 min");
}

TEST_CASE("current and step at a moment come from the same side of a jump", "[post]") {
  const auto histories = test::in_memory(test::sample_run());
  const Drive drive(*histories);
  CHECK(drive.step_at(0.0).value() == 0);
  CHECK(drive.step_at(600.0).value() == 0);
  CHECK(drive.step_at(600.1).value() == 1);
  CHECK(drive.current_at(599.0).value() == 20.0);
  CHECK(drive.current_at(600.0).value() == 20.0);
  CHECK(drive.current_at(601.0).value() == 39.5);
  CHECK(drive.current_at(1200.0).value() == 39.5);
  CHECK(drive.current_at(9999.0).value() == 39.5);
}

TEST_CASE("a second row at a jump belongs to the step that begins", "[post]") {
  auto run = test::sample_run();
  auto jumped = run.rows[10];  // 600 s
  jumped[1] = {39.5};
  jumped[8] = {1.0};
  run.times.insert(run.times.begin() + 11, 600.0);
  run.rows.insert(run.rows.begin() + 11, jumped);
  const auto histories = test::in_memory(run);
  const Drive drive(*histories);
  CHECK(drive.current_at(600.0).value() == 20.0);
  CHECK(drive.current_at(600.5).value() == 39.5);
}
