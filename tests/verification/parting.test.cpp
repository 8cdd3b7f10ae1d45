// SPDX-License-Identifier: MIT
// The conductor takes up its heat of fusion, parts, and carries no current from then on.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "exact_solutions.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;
using Kind = marching::Event::Kind;

constexpr double pi = std::numbers::pi;
constexpr double no_14 = 1.62771e-3;  // m, 0.127 mm x 92^((36 - 14) / 39)  (ASTM B258)
constexpr double no_14_area = 0.25 * pi * no_14 * no_14;
constexpr double heat_per_volume = 3.45e6;  // J/m3/K, copper in IEC 60949 (seen)
constexpr double density = 8890.0;          // kg/m3
constexpr double fusion = 205e3;            // J/kg, copper; often used (CRC has 208.7; from memory)
constexpr double melting = 1084.62;         // degC, ITS-90 (from memory, very sure)

scenario::MaterialPtr melting_copper() {
  auto made = metal(390, density, heat_per_volume / density, 1.7241e-8, 1.0 / 254.5);
  made->melting_point = melting + zero_celsius;
  made->heat_of_fusion = fusion;
  return made;
}

const AdiabaticHeating nothing_lost{heat_per_volume, 1.7241e-8, 234.5, no_14_area};

/// s in which a current makes the heat of fusion in metal at its melting point, which keeps it
/// there: m L = I^2 rho / A t per metre.
double fusing_seconds(double ampere) {
  const double ohm = 1.7241e-8 * (melting + 234.5) / 254.5 / no_14_area;
  return fusion * density * no_14_area / (ampere * ampere * ohm);
}

std::vector<marching::Event> of_kind(const Marched& marched, Kind kind) {
  std::vector<marching::Event> found;
  std::copy_if(marched.events.begin(), marched.events.end(), std::back_inserter(found),
               [&](const auto& event) { return event.kind == kind; });
  return found;
}

/// Every row has its ledger closed and its temperatures finite.
void is_sound(const Marched& marched) {
  CHECK(marched.summary.ending == marching::Summary::Ending::complete);
  CHECK(marched.worst_gap() < 1e-11);
  for (const auto& row : marched.rows) {
    CHECK(std::all_of(row.temperature.begin(), row.temperature.end(),
                      [](double kelvin) { return std::isfinite(kelvin) && kelvin > 200.0; }));
  }
}

}  // namespace

TEST_CASE("bare No. 14 at 400 A with nothing lost melts and parts at its times") {
  auto rig = long_wire({melting_copper(), no_14, {}}, film(0.0, 0.0, 25.0));
  rig.hold(400, 10);
  rig.sheet.output.every = 0.1;
  const auto marched = run(rig.sheet);
  is_sound(marched);
  // Onderdonk's formula (form seen) for 4110 circular mils from 25 to 1083 degC: 2.26 s.
  const double onderdonk =
      std::pow(4110.0 / 400.0, 2) * std::log10((1083.0 - 25.0) / (234.0 + 25.0) + 1.0) / 33.0;
  const double melts = marched.summary.melts.value().time;
  const double parts = marched.summary.parts.value().time;
  CHECK(melts == Approx(onderdonk).epsilon(0.02));
  CHECK(melts == Approx(nothing_lost.seconds(400, 25, melting)).epsilon(1e-3));
  CHECK(parts - melts == Approx(fusing_seconds(400)).epsilon(1e-3));
  CHECK(marched.summary.parts->current == 400.0);
  // 7.61 kJ/m to the melting point and 3.79 kJ/m of fusion (computed from the constants above; the
  // second with 205 kJ/kg; 3 %).
  CHECK(marched.at(melts).ledger.made == Approx(7.61e3).epsilon(0.03));
  CHECK(marched.at(parts).ledger.made == Approx(7.61e3 + 3.79e3).epsilon(0.03));
  // From then on nothing is made, and what was made stays, as it cannot leave.
  CHECK(marched.last().ledger.made == Approx(marched.at(parts).ledger.made).epsilon(1e-12));
  CHECK(marched.last().electrical.asked == 400.0);
  CHECK(marched.last().electrical.current == 0.0);
}

TEST_CASE("a parted wire freezes, cools, and is carried to the end of the staircase") {
  // In a linear film of g W/m/K it gives back its heat of fusion in m L / (g (Tm - Ta)), then cools
  // as an exponential.
  const double g = 2.0;
  auto rig = long_wire({melting_copper(), no_14, {}}, film(g / (pi * no_14), 0.0, 25.0));
  rig.hold(400, 5).hold(100, 35);
  rig.sheet.output.every = 0.25;
  const auto marched = run(rig.sheet);
  is_sound(marched);
  const double parts = marched.summary.parts.value().time;
  const double frozen = parts + fusion * density * no_14_area / (g * (melting - 25.0));
  const double tau = heat_per_volume * no_14_area / g;
  for (const auto& row : marched.rows) {
    CAPTURE(row.time);
    if (row.time > parts && row.time < frozen - 0.3) {
      CHECK(row.probe[0] - zero_celsius == Approx(melting).margin(0.11));
    } else if (row.time > frozen + 0.3) {
      const double cooled = 25.0 + (melting - 25.0) * std::exp(-(row.time - frozen) / tau);
      CHECK(row.probe[0] - zero_celsius == Approx(cooled).margin(0.5));
    }
    CHECK((row.time <= parts || row.electrical.current == 0.0));
    CHECK(row.electrical.asked == (row.time <= 5.0 ? 400.0 : 100.0));
  }
  CHECK(marched.last().time == 40.0);
}

TEST_CASE("the hottest place of an uneven run parts, and its neighbours never melt") {
  Rig rig({melting_copper(), no_14, {}}, film(20.0, 0.5, 25.0));
  rig.held_end(25).piece("wire", 0.5).held_end(25);
  rig.conductor_probe(0.25).hold(250, 30);
  rig.sheet.output.every = 1.0;
  const auto marched = run(rig.sheet);
  is_sound(marched);
  const auto parts = of_kind(marched, Kind::conductor_parts);
  REQUIRE(parts.size() == 1);
  CHECK(parts.front().position == Approx(0.25).margin(0.15));
  CHECK(parts.front().time > marched.summary.melts->time);
  CHECK(marched.at(parts.front().time).temperature.front() < melting + zero_celsius - 300.0);
}

TEST_CASE("the supply comes back where a step says that the wire is rejoined, and not before") {
  auto rig = long_wire({melting_copper(), no_14, {}}, film(2.0 / (pi * no_14), 0.0, 25.0));
  rig.hold(400, 10).hold(20, 60).hold(20, 600);
  rig.sheet.staircase.back().rejoined = true;
  rig.sheet.output.every = 10.0;
  const auto marched = run(rig.sheet);
  is_sound(marched);
  for (const auto& row : marched.rows) {
    if (row.time != marched.summary.parts->time) {  // there it is told before and after
      const bool whole = row.time < marched.summary.parts->time;
      CHECK(row.electrical.current == (whole ? 400.0 : row.step == 2 ? 20.0 : 0.0));
    }
  }
  // 20 A in a film of 2 W/m/K: I^2 R settles at R20 (1 + alpha (T - 20)) I^2 = g (T - Ta).
  const double r = 400.0 * 1.7241e-8 / no_14_area;
  CHECK(marched.last_celsius() ==
        Approx((2.0 * 25.0 + r * (1.0 - 20.0 / 254.5)) / (2.0 - r / 254.5)).margin(0.05));
}

TEST_CASE("a fed voltage parts the wire, too, and then drives nothing") {
  auto rig = long_wire({melting_copper(), no_14, {}}, film(0.0, 0.0, 25.0));
  rig.feed(10.0, 20);
  rig.sheet.output.every = 0.5;
  const auto marched = run(rig.sheet);
  is_sound(marched);
  // V^2 / R: (T + beta) dT = V^2 254.5 / rho20 / Qc dt per metre of wire.
  const double slope = 2.0 * 10.0 * 10.0 * 254.5 / 1.7241e-8 / heat_per_volume;
  const double melts = (std::pow(melting + 234.5, 2) - std::pow(25.0 + 234.5, 2)) / slope;
  CHECK(marched.summary.melts.value().time == Approx(melts).epsilon(1e-3));
  CHECK(marched.last().electrical.current == 0.0);
  CHECK(marched.last().electrical.asked == 0.0);
}

TEST_CASE("a wire that comes near its melting point and does not reach it is marched as ever") {
  // With and without a heat of fusion the bits are the same.
  for (const double ampere : {20.0, 60.0}) {
    auto rig = long_wire({melting_copper(), no_14, {}}, film(20.0, 0.9, 25.0));
    rig.hold(ampere, 300).rest(60);
    const auto with = run(rig.sheet);
    auto plain = *rig.sheet.wire.metal;
    plain.heat_of_fusion = 0.0;
    rig.sheet.wire.metal = std::make_shared<const materials::Material>(plain);
    const auto without = run(rig.sheet);
    REQUIRE(with.rows.size() == without.rows.size());
    CHECK_FALSE(with.summary.melts);
    for (std::size_t i = 0; i < with.rows.size(); ++i) {
      CHECK(with.rows[i].temperature == without.rows[i].temperature);
      CHECK(with.rows[i].ledger.made == without.rows[i].ledger.made);
    }
  }
}
