// SPDX-License-Identifier: MIT
// Marches that are hard on step control, none with a step set by hand: each completes with finite
// temperatures and a closed ledger, or ends with a reason.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <string>

#include "diagnostics/problem.hpp"
#include "exact_solutions.hpp"
#include "scenario/arrangement.hpp"
#include "scenario/load.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;
using Ending = marching::Summary::Ending;

constexpr double pi = std::numbers::pi;
constexpr double no_14 = 1.62771e-3;  // m, 0.127 mm x 92^((36 - 14) / 39)  (ASTM B258)
constexpr double no_14_area = 0.25 * pi * no_14 * no_14;
constexpr double heat_per_volume = 3.45e6;  // J/m3/K, copper in IEC 60949 (seen)

scenario::MaterialPtr iec_copper(double melting_celsius = 0.0) {
  auto made = metal(390, 8890, heat_per_volume / 8890, 1.7241e-8, 1.0 / 254.5);
  made->melting_point = melting_celsius > 0.0 ? melting_celsius + zero_celsius : 0.0;
  return made;
}

const AdiabaticHeating nothing_lost{heat_per_volume, 1.7241e-8, 234.5, no_14_area};

scenario::Wire covered() {
  return {iec_copper(),
          no_14,
          {{"rubber", solid("rubber", 0.16, 1200, 1700), 1.2e-3},
           {"braid", solid("braid", 0.07, 600, 1340), 0.6e-3}}};
}

/// Completed, finite everywhere, nothing lost from the ledger.
void is_sound(const Marched& marched) {
  CHECK(marched.summary.ending == Ending::complete);
  double turnover = 1.0;  // J
  for (const auto& row : marched.rows) {
    turnover = std::max({turnover, row.ledger.made, std::abs(row.ledger.lost)});
  }
  for (const auto& row : marched.rows) {
    CHECK(std::abs(row.ledger.gap()) <= 1e-11 * turnover);
    CHECK(std::all_of(row.temperature.begin(), row.temperature.end(),
                      [](double kelvin) { return std::isfinite(kelvin) && kelvin > 200.0; }));
  }
}

/// Counts the time steps that end after a time.
class StepCount : public marching::Observer {
 public:
  explicit StepCount(double from) : from_(from) {}
  void moment(const marching::Moment&) override {}
  bool advanced(double time) override {
    late += time > from_ ? 1 : 0;
    return true;
  }
  int late = 0;

 private:
  double from_;
};

int steps_after(double from, const scenario::Scenario& sheet) {
  const auto grid = grid::build(sheet);
  marching::HeatNetwork network(grid, sheet);
  StepCount count(from);
  CHECK(marching::march(sheet, network, count).ending == Ending::complete);
  return count.late;
}

}  // namespace

TEST_CASE("four times the rating at once: slower than with nothing lost") {
  // No. 14 was rated at 15 A (old rubber-covered table; seen): 60 A from cold.
  auto rig = long_wire(covered(), still_air(30));
  rig.hold(60, 120);
  rig.sheet.output.every = 1.0;
  const auto marched = run(rig.sheet);
  is_sound(marched);
  for (const auto& row : marched.rows) {
    CHECK(row.probe[0] - zero_celsius <= nothing_lost.celsius(60, 30, row.time) + 0.01);
  }
  // In the first second the covering takes little yet: half of what the copper alone would rise.
  CHECK(marched.celsius(1) - 30.0 > 0.5 * (nothing_lost.celsius(60, 30, 1) - 30.0));
}

TEST_CASE("up to the melting point: bare No. 14 at 400 A with nothing lost") {
  // Onderdonk's formula, I = A sqrt(log10((Tm - Ta) / (234 + Ta) + 1) / (33 t)) with A in circular
  // mils (form seen): 2.26 s for 4110 circular mils from 25 to 1083 degC (computed here; 2 %). The
  // closed form of IEC 60949 to the melting point of copper, 1084.62 degC (ITS-90, from memory; 0.1
  // %).
  auto rig = long_wire({iec_copper(1084.62), no_14, {}}, film(0.0, 0.0, 25.0));
  rig.hold(400, 10);
  rig.sheet.output.every = 0.1;
  const auto marched = run(rig.sheet);
  is_sound(marched);
  REQUIRE(marched.summary.melts);
  const double melts = marched.summary.melts->time;
  CHECK(marched.last_celsius() == Approx(1084.62).margin(0.01));
  const double onderdonk =
      std::pow(4110.0 / 400.0, 2) * std::log10((1083.0 - 25.0) / (234.0 + 25.0) + 1.0) / 33.0;
  CHECK(onderdonk == Approx(2.26).margin(0.005));
  CHECK(melts == Approx(onderdonk).epsilon(0.02));
  CHECK(melts == Approx(nothing_lost.seconds(400, 25, 1084.62)).epsilon(1e-3));
}

namespace {

/// Heat capacity of wood with its moisture driven out between 99 and 120 degC, kJ/kg/K (EN 1995-1-2
/// table B.2, from memory, very sure).
const std::vector<std::pair<double, double>> moist_wood = {{20, 1.53},   {99, 1.77},  {99, 13.60},
                                                           {120, 13.50}, {120, 2.12}, {200, 2.00}};

/// Integral of it from 20 degC, J/kg, straight line by straight line.
double wood_heat(double celsius) {
  double sum = 0.0;
  for (std::size_t i = 0; i + 1 < moist_wood.size(); ++i) {
    const auto& [t0, c0] = moist_wood[i];
    const auto& [t1, c1] = moist_wood[i + 1];
    const double to = std::min(celsius, t1);
    if (to > t0) {
      const double c = c0 + (c1 - c0) * (to - t0) / (t1 - t0);
      sum += 0.5e3 * (c0 + c) * (to - t0);
    }
  }
  return sum;
}

constexpr double wood_density = 450.0;   // kg/m3
constexpr double wood_thickness = 1e-3;  // m

Rig wood_round_a_wire(double watt, double seconds) {
  auto wood = solid("wood", 0.12, wood_density, 1.0);
  wood->heat_capacity = {};
  for (const auto& [celsius, c] : moist_wood) {
    wood->heat_capacity.temperature.push_back(celsius + zero_celsius);
    wood->heat_capacity.value.push_back(1e3 * c);
  }
  // Nothing lost, and heat that does not follow temperature: 1 A makes `watt` W/m.
  auto rig = long_wire({metal(390, 8890, heat_per_volume / 8890, watt * no_14_area, 0.0),
                        no_14,
                        {{"wood", wood, wood_thickness}}},
                       film(0.0, 0.0, 20.0));
  rig.hold(1, seconds);
  return rig;
}

}  // namespace

TEST_CASE("a moisture peak takes its heat whatever the accuracy asked for") {
  for (const double accuracy : {1.0, 0.1, 0.01, 1e-3}) {
    INFO("accuracy " << accuracy << " K");
    auto rig = wood_round_a_wire(20.0, 150.0);
    rig.sheet.output.every = 1.0;
    rig.sheet.output.accuracy = accuracy;
    const auto marched = run(rig.sheet);
    is_sound(marched);
    const auto grid = grid::build(rig.sheet);
    for (const auto& row : marched.rows) {
      double held = 0.0;
      for (std::size_t c = 0; c < grid.cells; ++c) {
        const double celsius = row.temperature[c] - zero_celsius;
        held += grid.volume[c] * (c < grid.stations() ? heat_per_volume * (celsius - 20.0)
                                                      : wood_density * wood_heat(celsius));
      }
      CHECK(held == Approx(row.ledger.made).epsilon(0.01).margin(1e-6));
    }
    const double outside = marched.last_celsius(1);
    CHECK(outside > 120.0);  // the plateau is crossed, at the outside, too
  }
}

TEST_CASE("wood heated slowly crosses its moisture peak when its heat says so") {
  // 1 W/m: the section is even to 1 K, and nothing is lost, so it is at T when the heat made is
  // what copper and wood hold at T.
  auto rig = wood_round_a_wire(1.0, 4000.0);
  rig.sheet.output.every = 1.0;
  const auto marched = run(rig.sheet);
  const double radius = 0.5 * no_14 + wood_thickness;
  const double wood_per_metre = wood_density * (pi * radius * radius - no_14_area);
  for (const double celsius : {90.0, 130.0, 160.0}) {
    const double wanted = heat_per_volume * no_14_area * (celsius - 20.0) +
                          wood_per_metre * wood_heat(celsius);  // s at 1 W/m
    const auto reached =
        std::find_if(marched.rows.begin(), marched.rows.end(), [&](const Marched::Row& row) {
          return 0.5 * (row.probe[0] + row.probe[1]) - zero_celsius >= celsius;
        });
    REQUIRE(reached != marched.rows.end());
    CHECK(reached->time == Approx(wanted).epsilon(0.01));
  }
}

TEST_CASE("a fill that takes ten hours to settle is marched in few steps") {
  // Loose fill of 0.042 W/m/K and 80 kJ/m3/K out to 0.33 m: R^2 / (2.405^2 kappa) = 10 h, the
  // slowest term of a cylinder held outside (first zero of J0; any text).
  auto rig = long_wire(covered(), still_air(20));
  rig.sheet.run[1].kind = scenario::Filled{solid("fill", 0.042, 50, 1600), 0.33};
  rig.hold(10, 40 * 3600.0);
  is_sound(run(rig.sheet));
  // An output each minute: 1200 in the last twenty hours.
  CHECK(steps_after(20 * 3600.0, rig.sheet) <= 6);
}

TEST_CASE("a settled run takes steps longer than from output to output") {
  auto rig = long_wire(covered(), still_air(20));
  rig.hold(20, 4 * 3600.0);
  CHECK(steps_after(3 * 3600.0, rig.sheet) <= 3);  // 60 outputs
}

TEST_CASE("a millimetre of open wire beyond a sleeve at both cut ends") {
  Rig rig(covered(), still_air(20));
  rig.piece("left end", 0.0, scenario::CutEnd{})
      .piece("a", 1e-3)
      .piece("s", 0.2, scenario::Sleeve{solid("sleeving", 0.1, 900, 1400), 1e-3, 1e-3})
      .piece("b", 1e-3)
      .piece("right end", 0.0, scenario::CutEnd{});
  rig.conductor_probe(0.101).hold(40, 1800).rest(600);
  const auto marched = run(rig.sheet);
  is_sound(marched);
  CHECK(marched.celsius(1800) > 40.0);
}

TEST_CASE(
    "a run of a millimetre and one of a hundred metres are marched, or refused with a reason") {
  for (const std::string length : {"1 mm", "100 m"}) {
    INFO(length);
    const std::string sheet =
        "format: run-sheet 1\n"
        "title: Length\n"
        "wire:\n"
        "  metal: {gauge: No. 14, material: copper}\n"
        "  layers:\n"
        "    - {material: rubber-aged-soft, thickness: 1 mm}\n"
        "run:\n"
        "  - {piece: cut-end, name: left}\n"
        "  - {piece: open, name: wire, length: " +
        length +
        "}\n"
        "  - {piece: cut-end, name: right}\n"
        "around: {air: 20 degC}\n"
        "supply: {mode: current}\n"
        "staircase: [{hold: 20 A, for: 30 min}]\n"
        "output: {history: length.h5, every: 60 s}\n";
    try {
      auto loaded = scenario::load_text(sheet, AMPSTAIR_SOURCE_FOLDER "/scenarios/length.yaml",
                                        scenario::as_built);
      const auto marched = run(loaded.scenario);
      is_sound(marched);
      CHECK(marched.last().temperature[0] > 20.0 + zero_celsius);
    } catch (const diagnostics::InputError& refused) {
      for (const auto& problem : refused.problems().sorted()) {
        UNSCOPED_INFO(diagnostics::describe(problem));
        CHECK(problem.place.line == 9);  // the length's own line
      }
    }
  }
}

TEST_CASE("pulses between 200 A and 10 A") {
  auto rig = long_wire(covered(), still_air(20));
  for (int pulse = 0; pulse < 10; ++pulse) {
    rig.hold(200, 0.5).hold(10, 5);
  }
  rig.sheet.output.every = 0.25;
  const auto marched = run(rig.sheet);
  is_sound(marched);
  // Each pulse heats by less than with nothing lost.
  for (int pulse = 0; pulse < 10; ++pulse) {
    const double from = marched.celsius(5.5 * pulse);
    const double to = marched.celsius(5.5 * pulse + 0.5);
    CHECK(to > from);
    CHECK(to <= nothing_lost.celsius(200, from, 0.5) + 0.01);
  }
}

TEST_CASE("air that stirs at once, from still to 2 m/s") {
  auto stirred = still_air(20);
  stirred.air[0].speed = 2.0;
  auto around = still_air(20);
  around.air.push_back({3600.0, 20.0 + zero_celsius, 2.0});
  auto rig = long_wire(covered(), around);
  rig.hold(40, 7200);
  const auto marched = run(rig.sheet);
  is_sound(marched);
  auto always = long_wire(covered(), stirred);
  always.hold(40, 7200);
  CHECK(marched.last_celsius() == Approx(run(always.sheet).last_celsius()).margin(0.015));
  CHECK(marched.celsius(3600) > marched.last_celsius() + 10.0);
  for (std::size_t i = 62; i < marched.rows.size(); ++i) {  // it cools without swinging back
    CHECK(marched.rows[i].probe[0] <= marched.rows[i - 1].probe[0] + 0.015);
  }
}
