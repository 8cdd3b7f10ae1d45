// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <string>

#include "quantities/parse.hpp"

using namespace ampstair::quantities;

namespace {

std::string told(std::string_view text, Dimension dimension, std::string_view subject = "'x'") {
  const Parsed parsed = parse_quantity(text, dimension, subject);
  if (!parsed.fault) {
    return "read as " + std::to_string(parsed.si);
  }
  return parsed.fault->code + " " + parsed.fault->what + " | " + parsed.fault->remedy;
}

std::string code(std::string_view text, Dimension dimension) {
  const Parsed parsed = parse_quantity(text, dimension, "'x'");
  return parsed.fault ? parsed.fault->code : "none";
}

}  // namespace

TEST_CASE("a missing unit is told with the likely ones") {
  CHECK(told("1.10", Dimension::length, "'length' of piece 'south leg'") ==
        "E110 'length' of piece 'south leg' has no unit (read 1.10). | write 1.10 m, 110 cm or "
        "43.3 in; bare numbers are only accepted for ratios and counts");
  CHECK(told("11", Dimension::temperature) ==
        "E110 'x' has no unit (read 11). | write 11 degC, 51.8 degF or 284 K; bare numbers are "
        "only accepted for ratios and counts");
  CHECK(code("1 h 20", Dimension::duration) == "E110");
  CHECK(code("0", Dimension::length) == "E110");
}

TEST_CASE("a unit of another kind is named for what it is") {
  CHECK(told("0.5 A", Dimension::length, "'thickness'") ==
        "E111 'thickness' needs a length; 'A' is a current (ampere). | did you mean 0.5 mm?");
  CHECK(told("22 S", Dimension::duration) ==
        "E111 'x' needs a duration; 'S' is a conductance (siemens). | did you mean 22 min?");
  CHECK(told("10 Hz", Dimension::duration) ==
        "E111 'x' needs a duration; 'Hz' is a frequency (hertz). | did you mean 10 min?");
  CHECK(told("0.9 m", Dimension::ratio) ==
        "E111 'x' needs a bare number or a percentage; 'm' is a length (meter). | did you mean "
        "0.9?");
  CHECK(told("3/64\"", Dimension::length) ==
        "E111 'x' needs a length; '\"' is a plane angle (arc_second). | did you mean 3/64 in?");
  CHECK(code("5 %", Dimension::angle) == "E111");
  CHECK(code("5 mrad", Dimension::ratio) == "E111");
  CHECK(code("24 m", Dimension::count) == "E111");
  CHECK(code("1 h 20 m", Dimension::duration) == "E111");
}

TEST_CASE("temperatures and differences are not mixed") {
  CHECK(told("11 C", Dimension::temperature) ==
        "E112 'C' is ambiguous (coulomb, Celsius temperature or Celsius difference). | write 11 "
        "degC for a temperature, 11 Cdeg for a difference");
  CHECK(told("11 F", Dimension::temperature_difference) ==
        "E112 'F' is ambiguous (farad, Fahrenheit temperature or Fahrenheit difference). | write "
        "11 degF for a temperature, 11 Fdeg for a difference");
  CHECK(told("0.042 W/m/C", Dimension::conductivity) ==
        "E112 'W/m/C' is ambiguous (coulomb, Celsius temperature or Celsius difference). | write "
        "0.042 W/m/K");
  CHECK(told("11 degC", Dimension::temperature_difference) ==
        "E111 'x' needs a temperature difference; 'degC' is a temperature. | write 11 Cdeg or K");
  CHECK(told("20 Fdeg", Dimension::temperature) ==
        "E111 'x' needs a temperature; 'Fdeg' is a temperature difference. | write 20 degF");
  CHECK(code("-300 degC", Dimension::temperature) == "E118");
}

TEST_CASE("decimal commas and clock times are told as such") {
  CHECK(told("0,5 mm", Dimension::length) == "E113 '0,5' uses a decimal comma. | write 0.5 mm");
  CHECK(told("1,000 mm", Dimension::length) ==
        "E113 '1,000' uses a decimal comma. | write 1.000 mm, or 1000 mm if the comma separates "
        "thousands");
  CHECK(told("0:22:00", Dimension::duration) ==
        "E140 durations with colons are refused (some YAML readers turn 1:22:00 into the number "
        "4920, others keep text). | write 22 min, or 1 h 20 min");
  CHECK(code("1:22:00", Dimension::duration) == "E140");
}

TEST_CASE("unknown units and slips of a prefix get a hint") {
  CHECK(told("22 mni", Dimension::duration).find("did you mean 22 min?") != std::string::npos);
  CHECK(told("5 mmm", Dimension::length).find("did you mean 5 mm?") != std::string::npos);
  CHECK(told("0.35 Mohm", Dimension::resistance) ==
        "E116 'x' has the unit 'Mohm': a capital M is a million. | did you mean 0.35 mohm? A "
        "million is written out: 0.35e6 ohm");
  CHECK(code("5 Mm", Dimension::length) == "E116");
  CHECK(code("5 quux", Dimension::length) == "E114");
  CHECK(code("5 m since 2001", Dimension::length) == "E114");
  CHECK(code("5 lg(re 1 m)", Dimension::length) == "E114");
  CHECK(code("5 2m", Dimension::area) == "E114");
}

TEST_CASE("what is no finite number is refused") {
  for (const auto* text : {"", "  ", "abc", "inf m", "nan m", "~5 m", "<5 m", "--5 m", "m", ".m",
                           "1 h twenty min x", "\u22125 m"}) {
    CAPTURE(text);
    CHECK(parse_quantity(text, Dimension::length, "'x'").fault.has_value());
  }
  CHECK(code("inf", Dimension::ratio) == "E115");
  CHECK(code("nan", Dimension::ratio) == "E115");
  CHECK(code("1e400 m", Dimension::length) == "E117");
  CHECK(code("1e308 km", Dimension::length) == "E117");
  CHECK(code("1/0 m", Dimension::length) == "E117");
  CHECK(code("0/0 m", Dimension::length) == "E117");
  CHECK(code(std::string(400, '9') + " m", Dimension::length) == "E117");
  CHECK(code("2.5", Dimension::count) == "E115");
  CHECK(code("\u22125 m", Dimension::length) == "E115");
}

TEST_CASE("noise gives a short message") {
  const std::string noise(1000000, 'x');
  CHECK(told(noise, Dimension::length).size() < 300);
  CHECK(told("5 " + noise, Dimension::length).size() < 300);
  CHECK(told("5 " + std::string(1000, '('), Dimension::length).size() < 300);
}
