// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>

#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;
using marching::Summary;

scenario::Wire covered() {
  return {copper(),
          2.0525e-3,
          {{"rubber", solid("rubber", 0.15, 1150, 1700), 1.19e-3},
           {"braid", solid("braid", 0.07, 600, 1350), 0.5e-3}}};
}

/// Softwood whose drying peak (EN 1995-1-2 table B.2, from memory) stands in its heat capacity.
std::shared_ptr<materials::Material> moist_wood() {
  auto wood = solid("wood", 0.12, 480, 1530);
  wood->heat_capacity = {{293.15, 372.15, 372.15, 393.15, 393.15, 473.15},
                         {1530, 1770, 13600, 13500, 2120, 2000}};
  return wood;
}

/// Knob, tube through wood, loose sleeve, splice, fill and lugs in one short run.
Rig mixed_run() {
  scenario::Knob knob;
  knob.body = solid("porcelain", 1.5, 2400, 1050);
  knob.mass = 0.068;
  knob.height = 0.04;
  knob.grip_conductance = 300.0;
  knob.wood = moist_wood();
  knob.base_conductance = 100.0;
  knob.wood_depth = 0.03;
  scenario::Tube tube;
  tube.body = knob.body;
  tube.bore = 9.5e-3;
  tube.outer = 16e-3;
  tube.wood = moist_wood();
  tube.wood_thickness = 0.05;
  tube.wood_radius = 0.03;
  Rig rig(covered(), still_air(11));
  rig.sheet.supply.lead = {2.4, 16e-6, 1e-3, copper()};
  rig.piece("A", 0.0, scenario::Lug{0.35e-3, 0.02, 5.0, 1e-3, true})
      .piece("south", 0.3)
      .piece("K1", 0.04, knob)
      .piece("mid", 0.2)
      .piece("T1", 0.12, tube)
      .piece("press", 0.2)
      .piece("S1", 0.06, scenario::Splice{1e-3, {{"tape", solid("tape", 0.15, 1100, 1500), 8e-4}}})
      .piece("drop", 0.2, scenario::Sleeve{solid("sleeving", 0.08, 700, 1400), 1.2e-3, 0.5e-3})
      .piece("bay", 0.3, scenario::Filled{solid("cellulose", 0.042, 50, 1600), 0.1})
      .piece("B", 0.0, scenario::Lug{0.35e-3, 0.02, 5.0, 1e-3, true});
  rig.conductor_probe(0.15);
  return rig;
}

double hottest(const Marched::Row& row) {
  return *std::max_element(row.temperature.begin(), row.temperature.end()) - zero_celsius;
}

}  // namespace

TEST_CASE("the energy ledger closes to round-off, jumps, drying and rests included") {
  auto rig = mixed_run();
  rig.hold(14, 600).hold(55, 900).rest(600).hold(80, 300);
  rig.sheet.surroundings[0].air = {{0.0, 284.15, 0.0}, {700.0, 284.15, 0.25}, {940.0, 287.15, 0.0}};
  for (const double accuracy : {0.3, 0.03}) {
    rig.sheet.output.accuracy = accuracy;
    const auto marched = run(rig.sheet);
    CHECK(marched.summary.ending == Summary::Ending::complete);
    CHECK(marched.worst_gap() < 1e-11);
  }
}

TEST_CASE("made heat is volts times amperes over the whole loop") {
  auto rig = mixed_run();
  rig.hold(42, 1200);
  rig.sheet.output.every = 1.0;
  const auto marched = run(rig.sheet);
  double made = 0.0;  // trapezia over the outputs
  for (std::size_t i = 1; i < marched.rows.size(); ++i) {
    const auto& a = marched.rows[i - 1];
    const auto& b = marched.rows[i];
    made += 0.5 * (b.time - a.time) *
            (a.electrical.current * a.electrical.supply_voltage +
             b.electrical.current * b.electrical.supply_voltage);
  }
  CHECK(marched.last().ledger.made == Approx(made).epsilon(1e-4));
}

TEST_CASE("two marches of one scenario give the same bits") {
  auto rig = mixed_run();
  rig.hold(42, 300).rest(60);
  const auto a = run(rig.sheet);
  const auto b = run(rig.sheet);
  REQUIRE(a.rows.size() == b.rows.size());
  CHECK(a.summary.steps == b.summary.steps);
  for (std::size_t i = 0; i < a.rows.size(); ++i) {
    const auto& x = a.rows[i].temperature;
    const auto& y = b.rows[i].temperature;
    CHECK(std::memcmp(x.data(), y.data(), x.size() * sizeof(double)) == 0);
    CHECK(a.rows[i].ledger.made == b.rows[i].ledger.made);
  }
}

TEST_CASE("outputs come at their times, and at the end of every step") {
  auto rig = long_wire(covered(), still_air(20));
  rig.hold(20, 90).hold(30, 130).rest(20);
  const auto marched = run(rig.sheet);
  const double expected[] = {0, 60, 90, 120, 180, 220, 240};
  REQUIRE(marched.rows.size() == 7);
  for (std::size_t i = 0; i < 7; ++i) {
    CHECK(marched.rows[i].time == Approx(expected[i]));
  }
  CHECK(marched.rows[2].step_ends);
  CHECK(marched.rows[2].step == 0);
  CHECK(marched.rows[3].step == 1);
  CHECK(marched.rows[5].step_ends);
  CHECK(marched.rows[6].step_ends);
  CHECK_FALSE(marched.rows[1].step_ends);
  CHECK(marched.summary.end_time == 240.0);
}

TEST_CASE("a jump from nothing to four times the rating is followed") {
  // No. 14 was rated 15 A in rubber (the old code table); four times that is 60 A.
  scenario::Wire wire = covered();
  wire.diameter = 1.628e-3;
  auto rig = long_wire(wire, still_air(20));
  rig.rest(600).hold(60, 120);
  rig.sheet.output.every = 1.0;
  const auto quick = run(rig.sheet);
  CHECK(quick.celsius(600.0) == Approx(20.0).margin(1e-9));
  rig.sheet.output.accuracy = 1e-4;
  const auto tight = run(rig.sheet);
  for (double t = 601.0; t <= 720.0; t += 1.0) {
    CHECK(quick.celsius(t) == Approx(tight.celsius(t)).margin(0.06));
  }
  CHECK(quick.summary.rejected < quick.summary.steps / 2);
}

TEST_CASE("the march goes on cooling where the conductor has parted") {
  // 1084.62 degC (ITS-90, from memory, very sure).
  auto wire = covered();
  auto melting = copper();
  melting->melting_point = 1084.62 + zero_celsius;
  wire.metal = melting;
  auto rig = long_wire(wire, still_air(20));
  rig.hold(300, 60).hold(10, 60);
  rig.sheet.output.every = 1.0;
  const auto marched = run(rig.sheet);
  CHECK(marched.summary.ending == Summary::Ending::complete);
  CHECK(marched.summary.end_time == 120.0);
  REQUIRE(marched.summary.parts);
  const double parts = marched.summary.parts->time;
  CHECK(parts < 60.0);
  CHECK(marched.summary.melts->time == parts);  // no heat of fusion is given
  CHECK(marched.worst_gap() < 1e-11);           // cut at the event, and still closed
  for (const auto& row : marched.rows) {
    CHECK((row.time < parts || row.electrical.current == 0.0 || &row == &marched.at(parts)));
    CHECK(row.electrical.asked == (row.time <= 60.0 ? 300.0 : 10.0));
  }
  CHECK(marched.last_celsius() < marched.celsius(60) - 100.0);
  for (const auto& row : marched.rows) {
    CHECK(hottest(row) < 1084.7);
  }
}

TEST_CASE("a rest cools to the air") {
  auto rig = long_wire(covered(), still_air(11));
  rig.hold(42, 1320).rest(7200);
  const auto marched = run(rig.sheet);
  CHECK(marched.celsius(1320.0 + 7200.0) == Approx(11.0).margin(0.01));
  CHECK(marched.last().electrical.current == 0.0);
  double before = 1e9;
  for (const auto& row : marched.rows) {
    if (row.time > 1320.0) {
      CHECK(row.probe[0] <= before + 1e-3);  // 1 mK: a part of the accuracy asked for
      before = row.probe[0];
    }
  }
}

TEST_CASE("runs of one millimetre and of a hundred metres give the long wire's temperature") {
  auto metre = long_wire(covered(), still_air(11));
  metre.hold(42, 1320);
  const double wanted = run(metre.sheet).last_celsius();
  for (const double length : {1e-3, 100.0}) {
    Rig rig(covered(), still_air(11));
    rig.insulated_end().piece("wire", length).insulated_end();
    rig.conductor_probe(0.5 * length).hold(42, 1320);
    CHECK(run(rig.sheet).last_celsius() == Approx(wanted).margin(1e-3));
  }
}

TEST_CASE("a mirrored run has mirrored temperatures") {
  auto rig = mixed_run();
  Rig back(covered(), still_air(11));
  back.sheet.supply = rig.sheet.supply;
  for (auto piece = rig.sheet.run.rbegin(); piece != rig.sheet.run.rend(); ++piece) {
    back.piece(piece->name, piece->length, piece->kind);
  }
  const double length = rig.sheet.length();
  rig.sheet.probes.clear();
  for (const double z : {0.01, 0.32, 0.45, 0.6, 0.75, 0.89, 1.1, 1.4}) {
    rig.conductor_probe(z);
    back.conductor_probe(length - z);
  }
  rig.hold(42, 900);
  back.hold(42, 900);
  const auto a = run(rig.sheet);
  const auto b = run(back.sheet);
  for (std::size_t k = 0; k < rig.sheet.probes.size(); ++k) {
    CHECK(a.last_celsius(k) == Approx(b.last_celsius(k)).margin(0.01));
  }
}

TEST_CASE("a history of the air is followed to the second") {
  auto rig = long_wire(covered(), film(10.0, 0.0, 20.0));
  rig.sheet.surroundings[0].air = {{0.0, 293.15, 0.0}, {300.0, 303.15, 0.0}};
  rig.rest(8000);
  const auto marched = run(rig.sheet);
  CHECK(marched.celsius(300.0) == Approx(20.0).margin(1e-9));
  CHECK(marched.celsius(360.0) > 20.5);
  CHECK(marched.last_celsius() == Approx(30.0).margin(0.01));
}

TEST_CASE("an observer may stop the march") {
  class Stopper : public marching::Observer {
   public:
    void moment(const marching::Moment&) override {}
    bool advanced(double time) override { return time < 100.0; }
  };
  auto rig = long_wire(covered(), still_air(20));
  rig.hold(20, 6000);
  const auto grid = grid::build(rig.sheet);
  marching::HeatNetwork network(grid, rig.sheet);
  Stopper stopper;
  const auto summary = marching::march(rig.sheet, network, stopper);
  CHECK(summary.ending == Summary::Ending::stopped_by_observer);
  CHECK(summary.end_time >= 100.0);
  CHECK(summary.end_time < 6000.0);
}

TEST_CASE("the estimated error of the steps is told and within what was asked") {
  auto rig = long_wire(covered(), still_air(20));
  rig.hold(42, 600);
  const auto marched = run(rig.sheet);
  CHECK(marched.summary.error_estimate > 0.0);
  CHECK(marched.summary.error_estimate <= 10.0 * rig.sheet.output.accuracy);
}
