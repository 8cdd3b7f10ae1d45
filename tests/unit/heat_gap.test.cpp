// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "heat/air.hpp"
#include "heat/constants.hpp"
#include "heat/gap.hpp"

namespace {

using namespace ampstair;

constexpr double pi = std::numbers::pi;

/// Heat through a ring whose conductivity follows temperature, per metre: the integral of k dT over
/// ln(r2 / r1) / (2 pi).
double through(const materials::Material& ring, const heat::GapGeometry& gap, double hot,
               double cold) {
  const int slices = 4000;
  double integral = 0.0;
  for (int i = 0; i < slices; ++i) {
    const double t = cold + (hot - cold) * (i + 0.5) / slices;
    integral += ring.conductivity.at(t) * (hot - cold) / slices;
  }
  return 2.0 * pi * integral / std::log(gap.outer_radius / gap.inner_radius);
}

/// Radiation between long coaxial grey cylinders per metre (Cengel & Ghajar, table 13-3; Incropera
/// & DeWitt, table 13.3; from memory, very sure): A1 sigma (T1^4 - T2^4) / (1/e1 + (1 - e2)/e2 *
/// r1/r2).
double radiation(const heat::GapGeometry& gap, double hot, double cold) {
  const double e1 = gap.inner_emissivity;
  const double e2 = gap.outer_emissivity;
  return 2.0 * pi * gap.inner_radius * heat::stefan_boltzmann *
         (std::pow(hot, 4) - std::pow(cold, 4)) /
         (1.0 / e1 + (1.0 - e2) / e2 * gap.inner_radius / gap.outer_radius);
}

}  // namespace

TEST_CASE("a gap passes what conduction in air and coaxial grey cylinders pass") {
  for (const heat::GapGeometry& gap :
       {heat::GapGeometry{2.7e-3, 3.2e-3, 0.9, 0.9}, heat::GapGeometry{2.7e-3, 4.75e-3, 0.9, 0.92},
        heat::GapGeometry{1.0e-3, 3.0e-3, 0.05, 0.7}}) {
    const auto ring = heat::gap_air(gap);
    for (const auto& [hot, cold] : {std::pair{330.0, 300.0}, {420.0, 300.0}, {700.0, 350.0}}) {
      materials::Material air;
      for (double t = 220.0; t <= 1500.0; t += 1.0) {
        air.conductivity.temperature.push_back(t);
        air.conductivity.value.push_back(heat::air_at(t).conductivity);
      }
      const double exact = through(air, gap, hot, cold) + radiation(gap, hot, cold);
      CHECK(through(ring, gap, hot, cold) == Approx(exact).epsilon(3e-4));
    }
  }
}

TEST_CASE("a gap's air weighs next to nothing") {
  const auto ring = heat::gap_air({2.7e-3, 3.2e-3, 0.9, 0.9});
  CHECK(ring.density * ring.heat_capacity.at(350.0) < 2e3);
  CHECK(ring.part == "gap");
}
