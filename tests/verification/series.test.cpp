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

/// Ohm metre that make `watt` W/m at 1 A in a wire of this radius [m].
double makes(double watt, double radius) {
  return watt * pi * radius * radius;
}

}  // namespace

TEST_CASE("the series of a heated cylinder against figures calculated elsewhere") {
  // theta at the centre and the surface, and roots (Carslaw & Jaeger's series, from memory;
  // computed here, apart from this code; the first roots of Bi 1 and 10 agree with Incropera &
  // DeWitt table 5.1, from memory).
  struct Row {
    double biot, fourier, centre, surface;
  };
  for (const Row& row : {Row{0.1, 0.05, 0.049999, 0.049103},
                         {0.1, 1, 0.928811, 0.887003},
                         {0.1, 5, 3.269797, 3.115202},
                         {1, 0.1, 0.099519, 0.078367},
                         {1, 0.5, 0.402091, 0.276308},
                         {1, 1, 0.591864, 0.398326},
                         {1, 2, 0.717330, 0.478995},
                         {10, 0.1, 0.097748, 0.024501},
                         {10, 0.5, 0.269306, 0.046262},
                         {10, 2, 0.299975, 0.049997}}) {
    const HeatedCylinder exact(row.biot);
    CHECK(exact.theta(0.0, row.fourier) == Approx(row.centre).margin(1e-6));
    CHECK(exact.theta(1.0, row.fourier) == Approx(row.surface).margin(1e-6));
  }
  CHECK(HeatedCylinder(1.0).roots()[0] == Approx(1.255784).margin(1e-6));
  CHECK(HeatedCylinder(1.0).roots()[2] == Approx(7.155799).margin(1e-6));
  CHECK(HeatedCylinder(10.0).roots()[1] == Approx(5.033212).margin(1e-6));
}

TEST_CASE("a bare wire is a heated cylinder whose inside is even to its Biot number") {
  // A metal that conducts badly, 10 mm thick, so that it shows: Bi 0.01. The march takes the
  // section as one temperature, that of its surface, and lays the steady parabola on it for probes
  // inside. What it leaves out is the lag behind the parabola, of the order of g a^2 / 4 k.
  constexpr double a = 5e-3, k = 10.0, capacity = 3e6, h = 20.0, watt = 40.0;
  const HeatedCylinder exact(h * a / k);
  const double unit = watt / (pi * k);  // g a^2 / k
  auto rig = long_wire({metal(k, 7500, capacity / 7500, makes(watt, a), 0.0), 2.0 * a, {}},
                       film(h, 0.0, 20.0));
  rig.radius_probe(0.5, 0.0).hold(1.0, 2e4);
  rig.sheet.output.every = 50.0;
  rig.sheet.output.accuracy = 1e-4;
  const auto marched = run(rig.sheet);
  for (const double t : {100.0, 400.0, 1000.0, 2000.0}) {
    const double fourier = k / capacity * t / (a * a);
    CHECK(std::abs(marched.celsius(t, 0) - 20.0 - unit * exact.theta(1.0, fourier)) < 0.25 * unit);
    CHECK(std::abs(marched.celsius(t, 2) - 20.0 - unit * exact.theta(0.0, fourier)) < 0.25 * unit);
  }
  CHECK(marched.last_celsius(0) - 20.0 == Approx(unit * exact.theta(1.0, 1e9)).margin(1e-3));
  CHECK(marched.last_celsius(2) - marched.last_celsius(0) == Approx(0.25 * unit).margin(1e-3));
}

TEST_CASE("a covered core is heated by a constant current") {
  // CoveredCore::rise; a resistivity that does not change, 60 W/m. 48 rows.
  const CoveredCore::Data data{1e-3, 4e-3, 8960.0 * 385.0 * pi * 1e-6, 0.16, 1200.0 * 1700.0, 15.0};
  const CoveredCore exact(data);
  CHECK(std::abs(exact.rise(4e-3, 1e-3)) < 1e-6);  // the series adds up to the start
  auto rig = long_wire({metal(401, 8960, 385, makes(60.0, 1e-3), 0.0),
                        2e-3,
                        {{"rubber", solid("rubber", 0.16, 1200, 1700), 3e-3}}},
                       film(15.0, 0.0, 20.0));
  rig.radius_probe(0.5, 2e-3).hold(1.0, 1200);
  rig.sheet.output.every = 10.0;
  rig.sheet.output.accuracy = 1e-4;
  rig.sheet.output.radial_cells = 48;
  const auto marched = run(rig.sheet);
  for (const double t : {10.0, 30.0, 60.0, 120.0, 300.0, 600.0, 1200.0}) {
    CHECK(marched.celsius(t, 0) - 20.0 == Approx(60.0 * exact.rise(1e-3, t)).margin(0.02));
    CHECK(marched.celsius(t, 1) - 20.0 == Approx(60.0 * exact.rise(4e-3, t)).margin(0.02));
    CHECK(marched.celsius(t, 2) - 20.0 == Approx(60.0 * exact.rise(2e-3, t)).margin(0.02));
  }
}

TEST_CASE("wood under a constant flux is a half space") {
  // k 0.12, 450 kg/m3, 1600 J/kg/K, 1 kW/m2: surface after 60, 600, 3600 s 29.74, 94.03, 230.33 K,
  // 5 mm below it 4.93, 58.18, 191.06 K (Carslaw & Jaeger 2.9, form from memory; computed here).
  const HalfSpaceUnderFlux exact{0.12, 450.0 * 1600.0, 1000.0};
  const double seconds[] = {60, 600, 3600};
  const double surface[] = {29.74, 94.03, 230.33};
  const double below[] = {4.93, 58.18, 191.06};
  // The march: wood round a core of 10 m radius and next to no capacity, which passes its heat on.
  // A cylinder's surface is cooler than a plane's by the part sqrt(pi kappa t) / (4 a)
  // (first term of the small-time series; from memory): 1.1e-3 at the end. 0.3 m of wood are twelve
  // times as deep as the heat gets.
  constexpr double a = 10.0;
  auto rig = long_wire({metal(401, 1e-3, 385, makes(1000.0 * 2.0 * pi * a, a), 0.0),
                        2.0 * a,
                        {{"wood", solid("wood", 0.12, 450, 1600), 0.3}}},
                       film(10.0, 0.0, 20.0));
  rig.radius_probe(0.5, a + 5e-3).hold(1.0, 3600);
  rig.sheet.output.radial_cells = 2400;
  rig.sheet.output.grid = 1.0;
  const auto marched = run(rig.sheet);
  for (int i = 0; i < 3; ++i) {
    CHECK(exact.rise(0.0, seconds[i]) == Approx(surface[i]).margin(0.005));
    CHECK(exact.rise(5e-3, seconds[i]) == Approx(below[i]).margin(0.005));
    CHECK(marched.celsius(seconds[i], 0) - 20.0 == Approx(surface[i]).epsilon(3e-3));
    CHECK(marched.celsius(seconds[i], 2) - 20.0 == Approx(below[i]).epsilon(3e-3));
  }
}
