// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "heat/constants.hpp"
#include "heat/exchange.hpp"

namespace {

using namespace ampstair;
using heat::Exchange;
using heat::FaceKind;

constexpr double pi = std::numbers::pi;

scenario::Surroundings air(double kelvin, double speed = 0.0) {
  scenario::Surroundings around;
  around.air = {{0.0, kelvin, speed}};
  return around;
}

scenario::Surroundings film(double kelvin, double coefficient, double emissivity) {
  auto around = air(kelvin);
  around.film = scenario::FixedFilm{coefficient, emissivity};
  return around;
}

FaceKind wire_face() {
  FaceKind face;
  face.length = 5.4e-3;
  return face;
}

/// Surface temperature by bisection of conductance (cell - ts) = flux(ts).
double surface_by_bisection(const Exchange& exchange, double conductance, double cell) {
  double low = 200.0;
  double high = 1600.0;
  for (int i = 0; i < 200; ++i) {
    const double middle = 0.5 * (low + high);
    (conductance * (cell - middle) > exchange.at(middle).value ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

}  // namespace

TEST_CASE("a black pipe's radiation on top of free convection: Cengel & Ghajar example 9-1") {
  // D 0.08 m, L 6 m, 70 degC in 20 degC: 553 W with emissivity 1 (from memory, sure; 0.2 %). The
  // book takes 0 degC as 273 K, and so does the check: 273.15 K gives 554 W.
  const Exchange exchange(wire_face(), film(293.0, 0.0, 1.0), 0.0);
  CHECK(exchange.at(343.0).value * pi * 0.08 * 6.0 == Approx(553.0).epsilon(0.002));
}

TEST_CASE("a grey pipe's radiation: Incropera & DeWitt example 9.4") {
  // D 0.1 m, emissivity 0.85, 165 / 23 degC: 441 W/m (from memory, sure).
  const Exchange exchange(wire_face(), film(296.15, 0.0, 0.85), 0.0);
  CHECK(exchange.at(438.15).value * pi * 0.1 == Approx(441.0).epsilon(0.0015));
}

TEST_CASE("walls of another temperature than the air") {
  auto around = film(300.0, 10.0, 0.8);
  around.walls = {{0.0, 280.0}};
  const double radiation = 0.8 * heat::stefan_boltzmann * (std::pow(350.0, 4) - std::pow(280.0, 4));
  CHECK(Exchange(wire_face(), around, 0.0).at(350.0).value == Approx(500.0 + radiation));
}

TEST_CASE("a film's own emissivity replaces the surface's only where it is given") {
  auto around = film(300.0, 0.0, 0.5);
  const double given = Exchange(wire_face(), around, 0.0).at(400.0).value;
  around.film->emissivity.reset();
  const double own = Exchange(wire_face(), around, 0.0).at(400.0).value;
  CHECK(own / given == Approx(0.9 / 0.5));
}

TEST_CASE("the tabulated film agrees with its correlation") {
  for (const double speed : {0.0, 0.1, 2.0}) {
    const Exchange exchange(wire_face(), air(284.15, speed), 0.0);
    const double walls = 0.9 * heat::stefan_boltzmann * std::pow(284.15, 4);
    for (double t = 225.3; t<1500.0; t += t> 270.0 && t < 300.0 ? 0.13 : 7.7) {
      const double h =
          heat::film_coefficient(heat::Shape::horizontal_cylinder, 5.4e-3, t, {284.15, speed});
      const double exact = h * (t - 284.15) + 0.9 * heat::stefan_boltzmann * std::pow(t, 4) - walls;
      const double wrong = exchange.at(t).value - exact;
      INFO("surface " << t << " K, speed " << speed << ", off by " << wrong << " of " << exact);
      // 1e-4 of the flux, and beside the air's own temperature, where the coefficient has a cusp,
      // what a hundredth of a kelvin would drive.
      CHECK(std::abs(wrong) < std::max(1e-4 * std::abs(exact), 0.01 * (h + 5.0)));
    }
  }
}

TEST_CASE("slopes are the derivatives of the flux") {
  const Exchange exchange(wire_face(), air(284.15), 0.0);
  for (double t = 250.5; t < 1400.0; t += 31.0) {
    const double d = 1e-3;
    const double wanted = (exchange.at(t + d).value - exchange.at(t - d).value) / (2.0 * d);
    CHECK(exchange.at(t).slope == Approx(wanted).epsilon(1e-5));
  }
}

TEST_CASE("a face behind a resistance solves the balance at its surface") {
  for (const auto& around : {air(284.15), air(284.15, 1.0), film(293.15, 8.0, 0.9)}) {
    const Exchange exchange(wire_face(), around, 0.0);
    for (const double conductance : {5.0, 100.0, 1e3, 1e5, 4e9}) {
      for (const double cell : {250.0, 284.15, 300.0, 400.0, 900.0, 1300.0}) {
        const double exact = surface_by_bisection(exchange, conductance, cell);
        for (const double guess : {250.0, cell, 1200.0}) {
          const auto surface = exchange.behind(conductance, cell, guess);
          INFO("conductance " << conductance << ", cell " << cell << ", guess " << guess);
          CHECK(surface.temperature == Approx(exact).margin(1e-6));
          CHECK(surface.flux == Approx(exchange.at(exact).value).epsilon(1e-8).margin(1e-4));
        }
      }
    }
  }
}

TEST_CASE("the slope behind a resistance is the derivative by the cell's temperature") {
  const Exchange exchange(wire_face(), film(293.15, 8.0, 0.9), 0.0);
  const double d = 1e-2;
  const double up = exchange.behind(50.0, 400.0 + d, 400.0).flux;
  const double down = exchange.behind(50.0, 400.0 - d, 400.0).flux;
  CHECK(exchange.behind(50.0, 400.0, 400.0).slope == Approx((up - down) / (2.0 * d)).epsilon(1e-6));
}

TEST_CASE("held faces take the air's temperature or their own") {
  FaceKind face;
  face.to = FaceKind::To::held;
  CHECK(Exchange(face, air(290.0), 0.0).behind(7.0, 300.0, 300.0).flux == Approx(70.0));
  face.held_at = 350.0;
  const auto surface = Exchange(face, air(290.0), 0.0).behind(7.0, 300.0, 300.0);
  CHECK(surface.flux == Approx(-350.0));
  CHECK(surface.temperature == 350.0);
  CHECK(surface.slope == 7.0);
}

TEST_CASE(
    "what prevails is the last entry that has begun, and leads on to the next where it ramps") {
  scenario::Surroundings around;
  around.air = {{0.0, 284.0, 0.0, 0.1}, {60.0, 290.0, 0.3, 0.0, -0.01}, {90.0, 286.0, 0.0}};
  CHECK(heat::prevailing_from(around, 0.0).at(0.0).air == 284.0);
  CHECK(heat::prevailing_from(around, 59.9).at(30.0).air == Approx(287.0));
  CHECK(heat::prevailing_from(around, 60.0).at(60.0).speed == 0.3);
  CHECK(heat::prevailing_from(around, 60.0).at(75.0).speed == Approx(0.15));
  CHECK(heat::prevailing_from(around, 60.0).at(75.0).air == 290.0);
  CHECK(heat::prevailing_from(around, 1e6).at(1e6).air == 286.0);
  CHECK_FALSE(heat::prevailing_from(around, 1e6).moves());
  // Walls that are not given are as warm as the air; others have a history of their own.
  CHECK(heat::prevailing_from(around, 0.0).at(30.0).walls == Approx(287.0));
  around.walls = {{0.0, 280.0, 0.05}, {100.0, 285.0}};
  CHECK(heat::prevailing_from(around, 0.0).at(20.0).walls == Approx(281.0));
  CHECK(heat::prevailing_from(around, 95.0).moves());
}

TEST_CASE("an exchange that goes over to another ambient is the exchange made for it") {
  Exchange moved(wire_face(), air(284.0, 0.1), 0.0);
  const Exchange anew(wire_face(), air(300.0, 0.4), 0.0);
  moved.set({300.0, 300.0, 0.4}, 300.0, 340.0);
  for (const double surface : {300.0, 300.5, 312.0, 340.0}) {
    CHECK(moved.at(surface).value == Approx(anew.at(surface).value).margin(1e-12));
    CHECK(moved.at(surface).slope == Approx(anew.at(surface).slope));
  }
  moved.set({300.0, 290.0, 0.4}, 290.0, 340.0);  // only the walls
  CHECK(moved.at(320.0).value - anew.at(320.0).value ==
        Approx(0.9 * heat::stefan_boltzmann * (std::pow(300.0, 4) - std::pow(290.0, 4))));
}
