// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "quantities/parse.hpp"

using namespace ampstair::quantities;

TEST_CASE("values are written in a unit people use") {
  CHECK(format(1.10, Dimension::length) == "1.10 m");
  CHECK(format(0.0, Dimension::length) == "0.00 m");
  CHECK(format(0.0254 * 3 / 64, Dimension::length) == "1.191 mm");
  CHECK(format(0.00095, Dimension::length) == "0.95 mm");
  CHECK(format(16e-6, Dimension::area) == "16 mm2");
  CHECK(format(0.068, Dimension::mass) == "68 g");
  CHECK(format(1320, Dimension::duration) == "22 min");
  CHECK(format(4800, Dimension::duration) == "1 h 20 min");
  CHECK(format(3600, Dimension::duration) == "1 h");
  CHECK(format(3.6e6, Dimension::duration) == "1000 h");
  CHECK(format(90, Dimension::duration) == "90 s");
  CHECK(format(60, Dimension::duration) == "1 min");
  CHECK(format(3599.9, Dimension::duration) == "60 min");
  CHECK(format(333.15, Dimension::temperature) == "60.0 degC");
  CHECK(format(12.5, Dimension::temperature_difference) == "12.5 K");
  CHECK(format(31, Dimension::current) == "31 A");
  CHECK(format(0.0016, Dimension::resistance) == "1.6 mohm");
  CHECK(format(0.042, Dimension::conductivity) == "0.042 W/m/K");
  CHECK(format(8890, Dimension::density) == "8890 kg/m3");
  CHECK(format(1.7241e-8, Dimension::resistivity) == "1.724e-08 ohm m");
  CHECK(format(110000, Dimension::molar_energy) == "110 kJ/mol");
  CHECK(format(206000, Dimension::specific_energy) == "206 kJ/kg");
  CHECK(format(0.0026, Dimension::angle) == "2.6 mrad");
  CHECK(format(0.02, Dimension::ratio) == "0.02");
  CHECK(format(1.0, Dimension::ratio) == "1.00");
  CHECK(format(24, Dimension::count) == "24");
}

TEST_CASE("what is written can be read again") {
  for (const double si : {0.0123, 1.5, 96.0, 1234.0}) {
    for (int i = 0; i <= static_cast<int>(Dimension::angle); ++i) {
      const auto dimension = static_cast<Dimension>(i);
      const bool whole = dimension == Dimension::count;
      const double value = whole ? 96.0 : si;
      const std::string text = format(value, dimension);
      CAPTURE(text, name_of(dimension));
      const Parsed parsed = parse_quantity(text, dimension, "'x'");
      REQUIRE_FALSE(parsed.fault.has_value());
      CHECK(parsed.si == Approx(value).epsilon(1e-2).margin(0.06));
    }
  }
}
