// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "instruments/camera.hpp"

namespace {

using namespace ampstair::instruments;

constexpr double zero_celsius = 273.15;

Camera set_to_95() {
  Camera camera;
  camera.emissivity_set = 0.95;
  camera.reflected = 11.0 + zero_celsius;
  return camera;
}

double shown(double celsius, double emissivity) {
  const auto reading =
      read(set_to_95(), {celsius + zero_celsius, emissivity, 1.0, 11.0 + zero_celsius});
  return reading.temperature - zero_celsius;
}

}  // namespace

TEST_CASE("a band as wide as the spectrum radiates sigma T^4 / pi") {
  for (const double kelvin : {250.0, 300.0, 600.0, 1300.0}) {
    CHECK(band_radiance(kelvin, 1e-7, 1e-2) ==
          Approx(5.670374419e-8 * std::pow(kelvin, 4) / std::numbers::pi).epsilon(1e-6));
  }
}

TEST_CASE("parts of a black body's radiation are those of the tables") {
  // Fraction below wavelength times temperature, Incropera & DeWitt table 12.1 (from memory, sure):
  // 2898 um K 0.250108, 4000 um K 0.480877, 10000 um K 0.914199; older radiation constants.
  const auto part = [](double micrometre_kelvin) {
    constexpr double kelvin = 1000.0;
    return band_radiance(kelvin, 1e-8, micrometre_kelvin * 1e-6 / kelvin) * std::numbers::pi /
           (5.670374419e-8 * std::pow(kelvin, 4));
  };
  CHECK(part(2898.0) == Approx(0.250108).margin(2e-5));
  CHECK(part(4000.0) == Approx(0.480877).margin(2e-5));
  CHECK(part(10000.0) == Approx(0.914199).margin(1e-4));
}

TEST_CASE("a band's radiance is Planck's law summed over it") {
  constexpr double planck = 6.62607015e-34;
  constexpr double light = 299792458.0;
  constexpr double boltzmann = 1.380649e-23;
  for (const double kelvin : {284.15, 368.15, 573.15, 1073.15}) {
    double sum = 0.0;
    constexpr int panels = 6000;
    for (int i = 0; i < panels; ++i) {
      const double l = 8e-6 + 6e-6 * (i + 0.5) / panels;
      sum += 2.0 * planck * light * light / std::pow(l, 5) /
             std::expm1(planck * light / (l * boltzmann * kelvin)) * 6e-6 / panels;
    }
    CHECK(band_radiance(kelvin, 8e-6, 14e-6) == Approx(sum).epsilon(1e-6));
    CHECK(radiating_at(sum, 8e-6, 14e-6) == Approx(kelvin).epsilon(1e-6));
  }
}

TEST_CASE("a camera set to 0.95 reads low on what radiates less") {
  // Computed apart, by summing Planck's law over 8 to 14 um with 11 degC reflected.
  CHECK(shown(95.0, 0.95) == Approx(95.0).margin(1e-6));
  CHECK(shown(95.0, 0.92) == Approx(93.0).margin(0.05));
  CHECK(shown(95.0, 0.78) == Approx(83.1).margin(0.05));
  CHECK(shown(95.0, 0.05) == Approx(17.2).margin(0.05));
  CHECK(shown(300.0, 0.78) == Approx(264.0).margin(0.1));
  CHECK(shown(48.2, 0.90) == Approx(46.5).margin(0.05));
}

TEST_CASE("a spot wider than the wire sees what stands behind it") {
  // 5.43 mm of wire at 1 m, 2.6 mrad a pixel: a spot of 3 pixels is 7.8 mm (computed as above).
  Camera camera = set_to_95();
  camera.distance = 1.0;
  camera.pixel_angle = 2.6e-3;
  const auto reading = read(camera, {95.0 + zero_celsius, 0.95, 5.43e-3, 11.0 + zero_celsius});
  CHECK(reading.filled == Approx(5.43 / 7.8).epsilon(1e-12));
  CHECK(reading.temperature - zero_celsius == Approx(74.3).margin(0.1));
  camera.distance = 0.45;
  CHECK(read(camera, {368.15, 0.95, 5.43e-3, 284.15}).filled == 1.0);
}

TEST_CASE("at the end of its scale a camera tells only that") {
  Camera camera = set_to_95();
  camera.ceiling = 150.0 + zero_celsius;
  const auto hot = read(camera, {260.0 + zero_celsius, 0.9, 1.0, 284.15});
  CHECK(hot.at_ceiling);
  CHECK(hot.temperature == camera.ceiling);
  const auto warm = read(camera, {120.0 + zero_celsius, 0.9, 1.0, 284.15});
  CHECK_FALSE(warm.at_ceiling);
  CHECK(warm.temperature < 120.0 + zero_celsius);
}

TEST_CASE("a mirror reads as what it mirrors, however hot it is") {
  CHECK(shown(800.0, 1e-9) == Approx(11.0).margin(0.01));
  // Told of a hotter surrounding than there is, it has nothing left to read.
  Camera camera = set_to_95();
  camera.emissivity_set = 0.05;
  camera.reflected = 400.0;
  CHECK(read(camera, {284.15, 0.05, 1.0, 284.15}).temperature == 0.0);
}
