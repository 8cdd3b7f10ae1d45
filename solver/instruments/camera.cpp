// SPDX-License-Identifier: MIT
#include "instruments/camera.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>

namespace ampstair::instruments {

namespace {

constexpr double stefan_boltzmann = 5.670374419e-8;  // W/m2/K4, CODATA 2018
constexpr double second_radiation = 1.438776877e-2;  // m K, CODATA 2018
constexpr double coldest = 20.0;                     // K; no surface or sky is colder
constexpr double hottest = 1e4;                      // K

/// Part of a black body's radiation below x = wavelength times temperature [m K].
double part_below(double x) {
  const double pi4 = std::pow(std::numbers::pi, 4);
  const double z = second_radiation / x;
  double sum = 0.0;
  for (int n = 1; n <= 200; ++n) {
    const double m = n;
    const double term = std::exp(-m * z) * (z * z * z / m + 3.0 * z * z / (m * m) +
                                            6.0 * z / (m * m * m) + 6.0 / (m * m * m * m));
    sum += term;
    if (term < std::numeric_limits<double>::epsilon() * sum) {
      break;
    }
  }
  return 15.0 / pi4 * sum;
}

}  // namespace

double band_radiance(double kelvin, double band_begin, double band_end) {
  const double whole = stefan_boltzmann * std::pow(kelvin, 4) / std::numbers::pi;
  return whole * (part_below(band_end * kelvin) - part_below(band_begin * kelvin));
}

double radiating_at(double radiance, double band_begin, double band_end) {
  const auto over = [&](double kelvin) {
    return band_radiance(kelvin, band_begin, band_end) - radiance;
  };
  if (!(over(coldest) < 0.0)) {
    return 0.0;
  }
  if (over(hottest) < 0.0) {
    return hottest;
  }
  const auto close = [](double a, double b) { return b - a < 1e-9 * a; };
  std::uintmax_t most = 100;
  return boost::math::tools::toms748_solve(over, coldest, hottest, close, most).second;
}

CameraReading read(const Camera& camera, const Seen& seen) {
  const auto radiance = [&](double kelvin) {
    return band_radiance(kelvin, camera.band_begin, camera.band_end);
  };
  CameraReading reading;
  const double spot = pixels_of_a_spot * camera.pixel_angle * camera.distance;
  reading.filled = spot > 0.0 ? std::min(1.0, seen.width / spot) : 1.0;
  const double around = radiance(seen.around);
  const double from_wire =
      seen.emissivity * radiance(seen.temperature) + (1.0 - seen.emissivity) * around;
  const double got = reading.filled * from_wire + (1.0 - reading.filled) * around;
  const double set = camera.emissivity_set;
  reading.temperature = radiating_at((got - (1.0 - set) * radiance(camera.reflected)) / set,
                                     camera.band_begin, camera.band_end);
  if (camera.ceiling > 0.0 && reading.temperature >= camera.ceiling) {
    reading.temperature = camera.ceiling;
    reading.at_ceiling = true;
  }
  return reading;
}

}  // namespace ampstair::instruments
