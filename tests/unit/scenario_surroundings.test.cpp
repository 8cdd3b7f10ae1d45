// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <string>

#include "scenario_small_sheet.hpp"

using namespace ampstair;
using namespace ampstair::tests;

TEST_CASE("air may be one temperature, one entry or a list of entries") {
  for (const auto* air : {"20 degC", "{temperature: 68 degF}", "[{temperature: 293.15 K}]",
                          "[{at: 0 min, temperature: 20 degC, speed: 0 m/s}]"}) {
    CAPTURE(air);
    SmallSheet sheet;
    sheet.around = std::string("{air: ") + air + "}";
    const auto scenario = loaded(sheet).scenario;
    CHECK(scenario.surroundings.front().air.size() == 1);
    CHECK(scenario.start_temperature == Approx(293.15));
  }
}

TEST_CASE("air and walls may come to an entry along a straight line") {
  SmallSheet sheet;
  sheet.around =
      "{air: [{temperature: 10 degC}, {at: 10 min, temperature: 16 degC, ramp: true}, {at: 20 min, "
      "speed: 0.6 m/s, ramp: true}], walls: [{temperature: 5 degC}, {at: 100 s, temperature: 7 "
      "degC, "
      "ramp: true}]}";
  const auto around = loaded(sheet).scenario.surroundings.front();
  REQUIRE(around.air.size() == 3);
  CHECK(around.air[0].temperature_rate == Approx(0.01));
  CHECK(around.air[1].temperature == Approx(289.15));
  CHECK(around.air[1].speed_rate == Approx(1e-3));
  CHECK(around.air[1].temperature_rate == 0.0);
  CHECK(around.air[2].temperature_rate == 0.0);
  REQUIRE(around.walls.size() == 2);
  CHECK(around.walls[0].temperature_rate == Approx(0.02));
  CHECK(only_code(sheet) == "none");
  sheet.around = "{air: {temperature: 10 degC, ramp: true}}";
  CHECK(only_code(sheet) == "E197");
  sheet.around = "{air: 10 degC, walls: [{temperature: 5 degC}, {at: 0 min, temperature: 7 degC}]}";
  CHECK(only_code(sheet) == "E165");
}

TEST_CASE("the air's history may be a file's, whose text is kept") {
  const auto folder = std::filesystem::path(AMPSTAIR_BUILD_FOLDER);
  const auto load_beside = [&](const std::string& csv) {
    std::ofstream(folder / "barn air.csv") << csv;
    SmallSheet sheet;
    sheet.around = "{air: {csv: barn air.csv}}";
    std::ofstream(folder / "csv sheet.yaml") << sheet.text();
    return load(folder / "csv sheet.yaml", as_built);
  };
  const auto faults_of = [&](const std::string& csv) {
    std::string told;
    try {
      load_beside(csv);
    } catch (const diagnostics::InputError& error) {
      for (const auto& one : error.problems().sorted()) {
        told += one.code + " " + std::to_string(one.place.line) + ":" +
                std::to_string(one.place.column) + " ";
      }
    }
    return told;
  };
  const std::string csv =
      "# a log\ntime [min], temperature [degF], speed [km/h]\n0, 50, 0\n10, 68.0, 3.6\n\n20, 68, "
      "0\n";
  const auto scenario = load_beside(csv).scenario;
  const auto& air = scenario.surroundings.front().air;
  REQUIRE(air.size() == 3);
  CHECK(air[1].from_time == Approx(600.0));
  CHECK(air[0].temperature == Approx(283.15));
  CHECK(air[0].temperature_rate == Approx(10.0 / 600.0));
  CHECK(air[1].speed == Approx(1.0));
  CHECK(scenario.start_temperature == Approx(283.15));
  REQUIRE(scenario.files.size() == 1);
  CHECK(scenario.files[0].name == "barn air.csv");
  CHECK(scenario.files[0].text == csv);
  CHECK(faults_of("temperature [degC], time [min]\n11, 0\n12, 1\n") == "");
  CHECK(faults_of("time [min], temperature\n0, 11\n") == "E191 1:13 ");
  CHECK(faults_of("time [min], temprature [degC]\n0, 11\n") == "E191 1:13 ");
  CHECK(faults_of("time [min], speed [m/s]\n0, 1\n") == "E191 1:1 ");
  CHECK(faults_of("time [min], temperature [m]\n0, 1\n").substr(0, 5) == "E111 ");
  CHECK(faults_of("time [min], temperature [degC]\n0, 11\n1, warm\n1, 12, 3\n") ==
        "E192 3:4 E192 4:1 ");
  CHECK(faults_of("time [min], temperature [degC]\n1, 11\n") == "E193 2:1 ");
  CHECK(faults_of("time [min], temperature [degC]\n0, 11\n5, 12\n5, 13\n") == "E193 4:1 ");
  CHECK(faults_of("time [min], temperature [degC]\n0, 1100\n") == "E130 2:4 ");
  CHECK(faults_of("") == "E191 0:1 ");
  SmallSheet sheet;
  sheet.around = "{air: {csv: no such.csv}}";
  CHECK(only_code(sheet) == "E190");
  sheet.around = "{air: {csv: no such.csv, speed: 1 m/s}}";
  CHECK(only_code(sheet) == "E198");
}

TEST_CASE("a piece's own surroundings take the run's for what they do not give") {
  SmallSheet sheet;
  sheet.around = "{air: 20 degC, walls: 15 degC}";
  sheet.middle =
      "{piece: open, name: leg, length: 1 m, around: {film: {coefficient: 8 W/m2/K, emissivity: "
      "0.9}}}";
  const auto scenario = loaded(sheet).scenario;
  REQUIRE(scenario.surroundings.size() == 2);
  CHECK(scenario.run[0].around == 0);
  CHECK(scenario.run[1].around == 1);
  CHECK(scenario.surroundings[1].walls.front().temperature == Approx(288.15));
  CHECK(scenario.surroundings[1].film->coefficient == Approx(8.0));
  CHECK_FALSE(scenario.surroundings[0].film);
}

TEST_CASE("which correlation, how far it is trusted, how high up, and which way the wire runs") {
  SmallSheet sheet;
  sheet.around = "{air: 20 degC, still_air: morgan-1975, convection: 0.9, altitude: 1500 m}";
  sheet.middle =
      "{piece: open, name: leg, length: 1 m, around: {still_air: churchill-chu-1975}}\n"
      "  - {piece: open, name: up, length: 0.5 m, runs: vertical}\n"
      "  - {piece: knob, name: k, grips: 40 mm, runs: vertical}\n"
      "  - {piece: open, name: across, length: 0.5 m}";
  const auto scenario = loaded(sheet).scenario;
  const auto& of_run = scenario.surroundings[0];
  CHECK(of_run.convection.still_air == StillAir::morgan_1975);
  CHECK(of_run.convection.factor == Approx(0.9));
  // 845.56 hPa at 1500 m (ISO 2533, from memory, very sure).
  CHECK(of_run.convection.pressure == Approx(845.56 / 1013.25).epsilon(1e-4));
  const auto& own = scenario.surroundings[scenario.run[1].around];
  CHECK(own.convection.still_air == StillAir::churchill_chu_1975);
  CHECK(own.convection.pressure == of_run.convection.pressure);
  CHECK(scenario.run[1].height == 0.0);
  CHECK(scenario.run[2].height == Approx(0.54));
  CHECK(scenario.run[3].height == Approx(0.54));
  CHECK(scenario.run[4].height == 0.0);
}
