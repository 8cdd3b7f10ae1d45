// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "exact_solutions.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

constexpr double pi = std::numbers::pi;
constexpr double no_14 = 1.62771e-3;    // m  (ASTM B258)
constexpr double no_14_ohm = 8.285e-3;  // ohm/m at 20 degC

/// Resistivity of a wire of that radius that makes so many W/m at 1 A.
double makes(double watt, double radius) {
  return watt * pi * radius * radius;
}

/// Conductor, surface and further probes [degC] of a long wire long after its step began.
Marched settled(Rig& rig, double ampere, double seconds = 4e6) {
  rig.hold(ampere, seconds);
  rig.sheet.output.every = seconds;
  return run(rig.sheet);
}

}  // namespace

TEST_CASE("inside a heated wire: Cengel & Ghajar example 2-17") {
  // 2 kW in 0.5 m of 4 mm, k 15, surface 105 degC: centre 126 degC (seen; recomputed 126.2, 0.1 K).
  constexpr double radius = 2e-3, watt = 4000.0, h = 1e5;
  const double film_rise = watt / (2.0 * pi * radius * h);
  auto rig = long_wire({metal(15.0, 8000, 500, makes(watt, radius), 0.0), 2.0 * radius, {}},
                       film(h, 0.0, 105.0 - film_rise));
  rig.radius_probe(0.5, 0.0);
  const auto marched = settled(rig, 1.0, 1e4);
  CHECK(marched.last_celsius(1) == Approx(105.0).margin(0.01));
  CHECK(marched.last_celsius(2) == Approx(126.2).margin(0.1));
}

TEST_CASE("a current heats a stainless wire: Holman example 2-6") {
  // 200 A, k 19, 3 mm, 70 microohm cm, h 4000, 110 degC: surface 215, centre 231.6 degC (from
  // memory, very sure; recomputed 215.1 and 231.66, 0.1 K).
  auto rig = long_wire({metal(19.0, 7800, 460, 70e-8, 0.0), 3e-3, {}}, film(4000.0, 0.0, 110.0));
  rig.radius_probe(0.5, 0.0);
  const auto marched = settled(rig, 200.0, 1e4);
  CHECK(marched.last_celsius(1) == Approx(215.1).margin(0.1));
  CHECK(marched.last_celsius(2) == Approx(231.66).margin(0.1));
}

TEST_CASE("critical radius of insulation: Holman example 2-5") {
  // Pipe of 5 cm at 200 degC in 20 degC, k 0.17, h 3: critical radius 5.67 cm, 105.7 W/m there and
  // 84.8 W/m bare (from memory, very sure; 0.1 %). The march is given those watts and finds the
  // 200 degC.
  constexpr double pipe = 0.025, critical = 0.17 / 3.0;
  CHECK(critical == Approx(0.0567).epsilon(1e-3));
  const auto celsius = [&](double watt, std::vector<scenario::Layer> layers) {
    auto rig = long_wire({metal(401, 8960, 385, makes(watt, pipe), 0.0), 2.0 * pipe, layers},
                         film(3.0, 0.0, 20.0));
    return settled(rig, 1.0).last_celsius(0);
  };
  CHECK(celsius(84.8, {}) - 20.0 == Approx(180.0).epsilon(1e-3));
  const auto insulation = solid("insulation", 0.17, 100, 1000);
  CHECK(celsius(105.7, {{"insulation", insulation, critical - pipe}}) - 20.0 ==
        Approx(180.0).epsilon(1e-3));
  for (const double radius : {0.9 * critical, 1.1 * critical}) {  // either side is hotter
    CHECK(celsius(105.7, {{"insulation", insulation, radius - pipe}}) > 200.0);
  }
}

TEST_CASE("volts for ten kelvin inside copper: Bird, Stewart & Lightfoot example 10.2-1") {
  // 5 m of copper, radius 2 mm, surface 20 degC, axis 10 K hotter, Lorenz number 2.23e-8: about 40
  // V (from memory, sure; recomputed 40.4, 1 %). Conductivity from the Lorenz number at 20 degC.
  constexpr double radius = 2e-3, rho = 1.7241e-8, h = 1e7;
  const double conductivity = 2.23e-8 * 293.15 / rho;
  const double watt = 10.0 * 4.0 * pi * conductivity;  // per metre, for 10 K
  const double ampere = std::sqrt(watt * pi * radius * radius / rho);
  auto rig = long_wire({metal(conductivity, 8960, 385, rho, 0.0), 2.0 * radius, {}},
                       film(h, 0.0, 20.0 - watt / (2.0 * pi * radius * h)));
  rig.radius_probe(0.5, 0.0);
  const auto marched = settled(rig, ampere, 100.0);
  CHECK(marched.last_celsius(1) == Approx(20.0).margin(0.01));
  CHECK(marched.last_celsius(2) - marched.last_celsius(1) == Approx(10.0).margin(0.01));
  const double length = rig.sheet.run.back().end();
  CHECK(marched.last().electrical.wire_voltage / length * 5.0 == Approx(40.4).epsilon(0.01));
}

TEST_CASE("a layer's thermal resistance: IEC 60287-2-1") {
  // (rho_T / 2 pi) ln(1 + 2 t / d): rubber 1.19 mm on 1.628 mm, 5.0 K m/W: 0.717 K m/W (form seen,
  // value recomputed).
  CHECK(5.0 / (2.0 * pi) * std::log(1.0 + 2.0 * 1.19 / 1.628) == Approx(0.717).margin(5e-4));
  auto rig = long_wire({metal(401, 8960, 385, makes(20.0, 0.814e-3), 0.0),
                        1.628e-3,
                        {{"rubber", solid("rubber", 0.2, 1200, 1700), 1.19e-3}}},
                       film(15.0, 0.0, 20.0));
  const auto marched = settled(rig, 1.0, 4e5);
  CHECK((marched.last_celsius(0) - marched.last_celsius(1)) / 20.0 == Approx(0.717).margin(5e-4));
}

TEST_CASE("a wire midway in a slab or below one face is a wire in a cylinder of fill") {
  // Midway between faces 2 z apart R = ln(8 z / (pi D)) / (2 pi k), Incropera table 4.1, so the
  // fill of a cylinder of radius 4 z / pi; below one face R = acosh(2 z / D) / (2 pi k) (forms from
  // memory, very sure; values computed apart from this code; 0.5 %). D 4.5 mm, K m/W.
  struct Row {
    double conductivity, outer, wanted;
  };
  const double below = 0.5 * 4.5e-3 * std::exp(std::acosh(2.0 * 0.05 / 4.5e-3));
  for (const auto& row :
       {Row{0.040, 4.0 * 0.100 / pi, 16.058}, Row{0.040, 4.0 * 0.0445 / pi, 12.836},
        Row{0.025, 4.0 * 0.0445 / pi, 20.538}, Row{0.040, below, 15.095}}) {
    CAPTURE(row.conductivity, row.outer);
    const double thickness = row.outer - 2.25e-3;
    auto rig = long_wire({metal(401, 8960, 385, makes(2.0, 2.25e-3), 0.0),
                          4.5e-3,
                          {{"fill", solid("fill", row.conductivity, 50, 1600), thickness}}},
                         film(1e6, 0.0, 20.0));
    CHECK((settled(rig, 1.0, 4e7).last_celsius(0) - 20.0) / 2.0 ==
          Approx(row.wanted).epsilon(5e-3));
  }
}

TEST_CASE("the current that brings a buried No. 14 to 60 degC") {
  // OD 4.5 mm of 0.2 W/m/K, faces at 30 degC, as above: 13.6, 15.1, 12.1 A (CALC from the shape
  // factor; 1 %).
  struct Row {
    double conductivity, half, wanted;
  };
  for (const auto& row :
       {Row{0.040, 0.100, 13.6}, Row{0.040, 0.0445, 15.1}, Row{0.025, 0.0445, 12.1}}) {
    CAPTURE(row.conductivity, row.half);
    auto rig = long_wire(
        {metal(401, 8960, 385, no_14_ohm * 0.25 * pi * no_14 * no_14, 0.00393),
         no_14,
         {{"rubber", solid("rubber", 0.2, 1200, 1700), 0.5 * (4.5e-3 - no_14)},
          {"fill", solid("fill", row.conductivity, 50, 1600), 4.0 * row.half / pi - 2.25e-3}}},
        film(1e6, 0.0, 30.0));
    const auto at = settled(rig, row.wanted, 4e7).last_celsius(0);
    // 1 % of the current is 2 % of the rise and what the resistance adds to it.
    CHECK(at - 30.0 == Approx(30.0).epsilon(0.022));
  }
}

TEST_CASE("a wire buried without end is a line source") {
  // dT = q / (4 pi k) E1(r^2 / 4 a t): k 0.040, 50 kg/m3, 1600 J/kg/K, 2 W/m, at 2.25 mm and 25 mm
  // after 600 s, 1 h, 4 h, 24 h (Carslaw & Jaeger, form from memory; values computed apart from
  // this code; 1 %). The wire is thin and holds no heat; 2 m of fill are five times as deep as the
  // heat gets.
  constexpr double wire = 0.2e-3;
  auto rig = long_wire({metal(401, 1.0, 385, makes(2.0, wire), 0.0),
                        2.0 * wire,
                        {{"fill", solid("fill", 0.040, 50, 1600), 2.0 - wire}}},
                       film(1e6, 0.0, 20.0));
  rig.radius_probe(0.5, 2.25e-3).radius_probe(0.5, 25e-3).hold(1.0, 86400);
  rig.sheet.output.every = 600.0;
  rig.sheet.output.radial_cells = 400;
  rig.sheet.output.grid = 1.0;
  rig.sheet.output.accuracy = 1e-3;
  const auto marched = run(rig.sheet);
  const double seconds[] = {600, 3600, 14400, 86400};
  const double near[] = {19.48, 26.59, 32.11, 39.24};
  const double far[] = {2.13, 7.77, 13.03, 20.09};
  for (int i = 0; i < 4; ++i) {
    CAPTURE(seconds[i]);
    CHECK(marched.celsius(seconds[i], 2) - 20.0 == Approx(near[i]).epsilon(0.01));
    CHECK(marched.celsius(seconds[i], 3) - 20.0 == Approx(far[i]).epsilon(0.01));
  }
  // Per e-fold of time 3.979 K, late and near.
  CHECK((marched.celsius(86400, 2) - marched.celsius(14400, 2)) / std::log(6.0) ==
        Approx(3.979).epsilon(0.01));
}

TEST_CASE("the adiabatic law's constants for copper, aluminium and steel: IEC 60949") {
  // K 226, 148, 78 with beta 234.5, 228, 202 (copper and aluminium K seen, the rest from memory,
  // very sure; 0.5 %) from 3.45, 2.5, 3.8 MJ/m3/K and 17.241, 28.264, 138 nohm m.
  CHECK(1e-6 * AdiabaticHeating{3.45e6, 17.241e-9, 234.5, 1.0}.constant() ==
        Approx(226.0).epsilon(5e-3));
  CHECK(1e-6 * AdiabaticHeating{2.5e6, 28.264e-9, 228.0, 1.0}.constant() ==
        Approx(148.0).epsilon(5e-3));
  CHECK(1e-6 * AdiabaticHeating{3.8e6, 138e-9, 202.0, 1.0}.constant() ==
        Approx(78.0).epsilon(5e-3));
  // 15 kA for 0.1 s with k 143 (30 -> 160 degC): 33.2 mm2 (seen; 0.5 % for the rounding of k).
  const AdiabaticHeating law{3.46e6, 17.241e-9, 234.5, 33.2e-6};
  CHECK(law.seconds(15e3, 30.0, 160.0) == Approx(0.1).epsilon(0.01));
}

TEST_CASE("Onderdonk's formula and the march to the melting point with nothing lost") {
  // I = A sqrt(log10((Tm - Ta) / (234 + Ta) + 1) / (33 t)), A in circular mils (form seen). No. 14
  // from 25 to 1083 degC: 1900, 601, 269, 190 A for 0.1, 1, 5, 10 s (recomputed; 0.5 %).
  const auto amperes = [](double circular_mils, double seconds) {
    return circular_mils *
           std::sqrt(std::log10((1083.0 - 25.0) / (234.0 + 25.0) + 1.0) / (33.0 * seconds));
  };
  const double area = 4107.0 * 0.25 * pi * 25.4e-6 * 25.4e-6;
  const AdiabaticHeating law{3.46e6, 17.241e-9, 234.5, area};
  struct Row {
    double seconds, ampere;
  };
  for (const auto& row : {Row{0.1, 1900.0}, Row{1.0, 601.0}, Row{5.0, 269.0}, Row{10.0, 190.0}}) {
    CAPTURE(row.seconds);
    CHECK(amperes(4110.0, row.seconds) == Approx(row.ampere).epsilon(5e-3));
    // IEC 60949 to the same temperature: 0.5 % of the current is 1 % of the time.
    CHECK(law.seconds(row.ampere, 25.0, 1083.0) == Approx(row.seconds).epsilon(0.01));
  }
  // 400 A: 2.26 s by either. The march begins to melt at the melting point of a metal of constant
  // heat and straight resistivity.
  CHECK(law.seconds(400.0, 25.0, 1083.0) == Approx(2.26).epsilon(0.01));
  auto melting = metal(401, 3.46e6 / 385.0, 385, 17.241e-9, 1.0 / 254.5);
  melting->melting_point = 1083.0 + zero_celsius;
  auto rig = long_wire({melting, 2.0 * std::sqrt(area / pi), {}}, film(0.0, 0.0, 25.0));
  rig.hold(400.0, 5.0);
  rig.sheet.output.every = 0.01;
  const auto marched = run(rig.sheet);
  REQUIRE(marched.summary.melts);
  CHECK(marched.summary.melts->time == Approx(law.seconds(400.0, 25.0, 1083.0)).epsilon(5e-3));
}

TEST_CASE("No. 14 begins to warm at 0.260 and 1.039 K/s") {
  // 20 degC, 15 and 30 A, 3.45 MJ/m3/K (CALC: I^2 R / C; 0.5 %).
  for (const auto& [ampere, rate] : {std::pair{15.0, 0.260}, {30.0, 1.039}}) {
    auto rig = long_wire({metal(401, 3.45e6 / 385.0, 385, 1.7241e-8, 0.00393), no_14, {}},
                         film(0.0, 0.0, 20.0));
    rig.start(20).hold(ampere, 0.5);
    rig.sheet.output.every = 0.5;
    CHECK((run(rig.sheet).last_celsius(0) - 20.0) / 0.5 == Approx(rate).epsilon(5e-3));
  }
}
