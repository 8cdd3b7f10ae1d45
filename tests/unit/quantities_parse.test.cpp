// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <string>
#include <thread>
#include <vector>

#include "quantities/parse.hpp"

using namespace ampstair::quantities;

namespace {

struct Case {
  std::string text;
  Dimension dimension;
  double si;
};

void check(const std::vector<Case>& cases) {
  for (const auto& [text, dimension, si] : cases) {
    CAPTURE(text, name_of(dimension));
    const Parsed parsed = parse_quantity(text, dimension, "'x'");
    if (parsed.fault) {
      FAIL(parsed.fault->code << " " << parsed.fault->what << " | " << parsed.fault->remedy);
    }
    CHECK(parsed.si == Approx(si).epsilon(1e-12).margin(1e-300));
  }
}

}  // namespace

// The inch is 25.4 mm and the pound 0.45359237 kg by the international agreement of 1959.
TEST_CASE("lengths, areas and masses are read in SI") {
  check({{"1.10 m", Dimension::length, 1.10},
         {"110 cm", Dimension::length, 1.10},
         {"0.5mm", Dimension::length, 0.0005},
         {"1.5e-3 m", Dimension::length, 0.0015},
         {".5 in", Dimension::length, 0.0127},
         {"3/64 in", Dimension::length, 0.0254 * 3 / 64},
         {"1 1/4 in", Dimension::length, 0.03175},
         {"2 ft 3 in", Dimension::length, 27 * 0.0254},
         {"-1.10 m", Dimension::length, -1.10},
         {"+1.10 m", Dimension::length, 1.10},
         {"  16 mm2 ", Dimension::area, 16e-6},
         {"68 g", Dimension::mass, 0.068},
         {"1 lb", Dimension::mass, 0.45359237}});
}

TEST_CASE("durations may be sums") {
  check({{"22 min", Dimension::duration, 1320},
         {"1 h 20 min", Dimension::duration, 4800},
         {"1h 20min 5 s", Dimension::duration, 4805},
         {"1000 h", Dimension::duration, 3.6e6},
         {"1/2 h", Dimension::duration, 1800},
         {"1 1/2 h 5 min", Dimension::duration, 5700},
         {"0 min", Dimension::duration, 0}});
}

TEST_CASE("temperatures have an origin, differences have none") {
  check({{"12 degC", Dimension::temperature, 285.15},
         {"122 degF", Dimension::temperature, 323.15},
         {"285.15 K", Dimension::temperature, 285.15},
         {"12 °C", Dimension::temperature, 285.15},
         {"-40 degF", Dimension::temperature, 233.15},
         {"12 K", Dimension::temperature_difference, 12},
         {"12 Cdeg", Dimension::temperature_difference, 12},
         {"18 Fdeg", Dimension::temperature_difference, 10}});
}

TEST_CASE("electrical and thermal units are read in SI") {
  check({{"31 A", Dimension::current, 31},
         {"250 mA", Dimension::current, 0.25},
         {"2.2 V", Dimension::voltage, 2.2},
         {"1.2 kW", Dimension::power, 1200},
         {"1.6 mohm", Dimension::resistance, 0.0016},
         {"0.35 mΩ", Dimension::resistance, 0.00035},
         {"1.7241e-8 ohm m", Dimension::resistivity, 1.7241e-8},
         {"0.017241 ohm.mm2/m", Dimension::resistivity, 1.7241e-8},
         {"0.25 m/s", Dimension::speed, 0.25},
         {"0.042 W/m/K", Dimension::conductivity, 0.042},
         {"0.042 W/(m K)", Dimension::conductivity, 0.042},
         {"0.042 W m-1 K-1", Dimension::conductivity, 0.042},
         {"8890 kg/m3", Dimension::density, 8890},
         {"8.89 g/cm3", Dimension::density, 8890},
         {"385 J/kg/K", Dimension::heat_capacity, 385},
         {"12 W/m2/K", Dimension::film_coefficient, 12},
         {"110 kJ/mol", Dimension::molar_energy, 110000},
         {"206 kJ/kg", Dimension::specific_energy, 206000},
         {"0.00393 1/K", Dimension::per_kelvin, 0.00393},
         {"0.00393 /K", Dimension::per_kelvin, 0.00393},
         {"2.6 mrad", Dimension::angle, 0.0026},
         {"180 deg", Dimension::angle, 3.14159265358979}});
}

TEST_CASE("ratios and counts are bare") {
  check({{"0.90", Dimension::ratio, 0.9},
         {"90 %", Dimension::ratio, 0.9},
         {"0.5%", Dimension::ratio, 0.005},
         {"3/4", Dimension::ratio, 0.75},
         {"24", Dimension::count, 24},
         {"20260311", Dimension::count, 20260311}});
}

TEST_CASE("units can be read by many threads at once") {
  std::vector<std::thread> threads;
  std::vector<int> wrong(8, 0);
  for (std::size_t t = 0; t < wrong.size(); ++t) {
    threads.emplace_back([&wrong, t] {
      for (int i = 0; i < 200; ++i) {
        const bool good = parse_quantity("3 ft", Dimension::length, "").si > 0.914;
        const bool bad = parse_quantity("3 fx", Dimension::length, "").fault.has_value();
        wrong[t] += good && bad ? 0 : 1;
      }
    });
  }
  for (auto& thread : threads) {
    thread.join();
  }
  CHECK(wrong == std::vector<int>(8, 0));
}
