// SPDX-License-Identifier: MIT
// Wood across air from a wire.
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "heat/air.hpp"
#include "heat/constants.hpp"
#include "heat/wood_properties.hpp"
#include "marching/wood_contacts.hpp"
#include "observed_order.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

constexpr double pi = std::numbers::pi;
constexpr double sigma = heat::stefan_boltzmann;
constexpr double room = zero_celsius + 20.0;  // K
constexpr double coefficient = 10.0;          // W/m2/K
constexpr double emissivity = 0.85;           // of every surface, by the film
constexpr double inside = 1e-3;               // m, conductor
constexpr double radius = 2.5e-3;             // m, covering
constexpr double k_rubber = 0.16;
constexpr double k_wood = 0.12;
constexpr double width = 0.05;  // m, of the wood
constexpr double depth = 0.02;  // m
constexpr double film_reach = 4e-3;

scenario::Wire wire() {
  // 0.1 ohm/m at any temperature.
  return {metal(400.0, 8900.0, 385.0, 0.1 * pi * inside * inside, 0.0),
          2.0 * inside,
          {{"rubber", solid("rubber", k_rubber, 1200, 1700), radius - inside}}};
}

Rig beside_wood(double distance, double watt_per_metre,
                const scenario::Surroundings& around = film(coefficient, emissivity, 20.0)) {
  Rig rig(wire(), around);
  rig.sheet.output.grid = 1.0;
  rig.insulated_end()
      .piece("w", 0.2)
      .faces({solid("wood", k_wood, 480, 1600), distance, depth, width, film_reach})
      .insulated_end();
  rig.conductor_probe(0.1).surface_probe(0.1).part_probe(0.1, "wood");
  rig.hold(std::sqrt(watt_per_metre / 0.1), 4e5);
  rig.sheet.output.every = 4e5;
  return rig;
}

template <class Of>
double zero_between(double low, double high, const Of& rising) {
  for (int i = 0; i < 200; ++i) {
    const double middle = 0.5 * (low + high);
    (rising(middle) < 0.0 ? low : high) = middle;
  }
  return low;
}

double given_off(double kelvin, double convects, double radiates) {
  return convects * coefficient * (kelvin - room) +
         radiates * emissivity * sigma * (std::pow(kelvin, 4) - std::pow(room, 4));
}

/// The steady network of wire, gap, wood and room, solved apart from the program by nested
/// bisection; all per metre.
class Network {
 public:
  explicit Network(double distance) : axis_(radius + distance) {
    const double seen = std::atan(0.5 * width / axis_) / pi;
    const double back = seen * 2.0 * pi * radius / width;
    const double left = 1.0 - (1.0 - emissivity) * (1.0 - emissivity) * seen * back;
    const double by_wood = emissivity * seen / left;
    const double by_itself = (1.0 - emissivity) * seen * back * emissivity / left;
    exchange_ = 2.0 * pi * radius * emissivity * by_wood;
    radiates_ = 1.0 - by_wood - by_itself;
    const double angle = std::acos(axis_ / (radius + film_reach));
    convects_ = 1.0 - angle / pi;
    shape_ = 4.0 / std::acosh(axis_ / radius) *
             std::atan(std::sqrt((axis_ + radius) / (axis_ - radius)) * std::tan(0.5 * angle));
    spread_ = std::sqrt(axis_ * axis_ - radius * radius);
    face_ = pi * spread_;
    face_convects_ = std::max(0.0, 1.0 - 2.0 * axis_ * std::tan(angle) / face_);
    face_radiates_ = 1.0 - 2.0 * pi * radius / face_ * std::atan(0.5 * face_ / axis_) / pi;
    const double whole = width / pi - spread_;
    resistance_ = (std::log((spread_ + whole) / spread_) / pi + (depth - whole) / width) / k_wood;
  }

  /// K: conductor, surface, wood's face.
  [[nodiscard]] std::vector<double> at(double watt) const {
    const double surface = zero_between(room, 2000.0, [&](double s) {
      return 2.0 * pi * radius * given_off(s, convects_, radiates_) + across(s, face_behind(s)) -
             watt;
    });
    return {surface + watt * std::log(radius / inside) / (2.0 * pi * k_rubber), surface,
            face_behind(surface)};
  }

 private:
  [[nodiscard]] double across(double surface, double face) const {
    constexpr int parts = 400;  // Simpson's rule
    double integral = 0.0;
    for (int i = 0; i <= parts; ++i) {
      const double weight = i == 0 || i == parts ? 1.0 : i % 2 == 0 ? 2.0 : 4.0;
      integral += weight * heat::air_at(std::lerp(face, surface, i / double(parts))).conductivity;
    }
    integral *= (surface - face) / (3.0 * parts);
    return shape_ * integral + exchange_ * sigma * (std::pow(surface, 4) - std::pow(face, 4));
  }
  [[nodiscard]] double into_wood(double face) const {
    const double back = zero_between(room - 1.0, 2000.0, [&](double b) {
      return width * given_off(b, 1.0, 1.0) - (face - b) / resistance_;
    });
    return (face - back) / resistance_;
  }
  [[nodiscard]] double face_behind(double surface) const {
    return zero_between(room - 1.0, surface, [&](double f) {
      return into_wood(f) + face_ * given_off(f, face_convects_, face_radiates_) -
             across(surface, f);
    });
  }

  double axis_;
  double exchange_, radiates_, convects_, shape_;
  double spread_, face_, face_convects_, face_radiates_, resistance_;
};

}  // namespace

TEST_CASE("wire, air and wood settle where their network does, the finer the grid the nearer") {
  const std::vector<double> exact = Network(1.5e-3).at(20.0);
  Convergence found;
  auto rig = beside_wood(1.5e-3, 20.0);
  rig.sheet.output.accuracy = 1e-4;
  rig.sheet.output.radial_cells = 4;
  for (const double scale : {1.0, 2.0, 4.0}) {
    const auto marched = run(rig.sheet, scale);
    double worst = 0.0;
    for (std::size_t k = 0; k < exact.size(); ++k) {
      worst = std::max(worst, std::abs(marched.last().probe[k] - exact[k]));
    }
    found.size.push_back(1.0 / scale);
    found.error.push_back(worst);
  }
  INFO(exact[0] << " " << exact[1] << " " << exact[2]);
  // Cells do not double exactly in the graded wood; order_in_space.test.cpp holds it to order 2.
  CHECK(found.order() > 1.9);
  CHECK(found.error.front() < 5e-3);
  CHECK(found.error.back() < 5e-4);
}

TEST_CASE("wood far away leaves a wire as it is in the open") {
  auto open = beside_wood(0.1, 20.0);
  open.sheet.run[1].facing.reset();
  open.sheet.probes.pop_back();
  const double alone = run(open.sheet).last_celsius(0);
  const auto rise = [&](double distance, double across) {
    auto rig = beside_wood(distance, 20.0);
    rig.sheet.run[1].facing->width = across;
    return run(rig.sheet).last_celsius(0) - alone;
  };
  CHECK(std::abs(rise(0.9, 1e-3)) < 5e-3);
  // What is still felt goes with the wood's view factor and, as the wood is warmed less, too, with
  // its square.
  const double near = rise(0.25, 0.05);
  CHECK(near > 0.0);
  CHECK(rise(0.5, 0.05) > 0.25 * near);
  CHECK(rise(0.5, 0.05) < 0.5 * near);
}

TEST_CASE("wood that comes nearer and nearer touches in the end") {
  // The gap's conductance goes to infinity as 1 / sqrt(distance): surface and face become one.
  const auto apart = [](double distance) {
    const auto marched = run(beside_wood(distance, 20.0).sheet);
    return marched.last_celsius(1) - marched.last_celsius(2);
  };
  const double at_a_micrometre = apart(1e-6);
  CHECK(at_a_micrometre < 1.0);
  CHECK(apart(1e-8) < 0.12 * at_a_micrometre);
  CHECK(apart(1e-8) > 0.0);
}

TEST_CASE("without a stagnant film wood gets radiation only") {
  // Where nothing radiates either, it gets nothing, and all the surface gives to the air.
  auto rig = beside_wood(1.5e-3, 20.0, film(coefficient, 0.0, 20.0));
  rig.sheet.run[1].facing->stagnant_film = 0.0;
  const auto marched = run(rig.sheet);
  CHECK(marched.last_celsius(2) == Approx(20.0).margin(0.01));
  CHECK(marched.last_celsius(1) ==
        Approx(20.0 + 20.0 / (2.0 * pi * radius * coefficient)).margin(0.01));
}

TEST_CASE("wood across air dries, chars and keeps the heat in balance, in a bay, too") {
  auto wood = solid("wood", 0.1, 480.0, 1000.0);
  wood->conductivity = {
      {253.15, 423.15},
      {0.89 * heat::conductivity_at_24(0.48, 0.0), 1.315 * heat::conductivity_at_24(0.48, 0.0)}};
  wood->heat_capacity = {{280.0, 420.0},
                         {heat::dry_heat_capacity(280.0), heat::dry_heat_capacity(420.0)}};
  wood->moisture = 0.12;
  auto around = still_air(20.0);
  around.bay = 0;
  Rig rig({copper(), 2e-3, {}}, around);
  rig.sheet.bays = {{40.0, 2e3, 2.0, 1.5}};
  rig.insulated_end()
      .piece("a", 0.1)
      .piece("w", 0.1)
      .faces({wood, 1e-3, depth, width, film_reach})
      .insulated_end();
  rig.hold(125, 1500).rest(600).hold(60, 300);
  rig.sheet.beyond = "to see wood char";
  const auto grid = grid::build(rig.sheet);
  marching::HeatNetwork network(grid, rig.sheet);
  marching::WoodContacts contacts(network);
  class Worst : public marching::Observer {
   public:
    void moment(const marching::Moment& moment) override {
      gap = std::max(gap, std::abs(moment.ledger.gap()));
      made = moment.ledger.made;
    }
    bool advanced(double /*time*/) override { return true; }
    double gap = 0.0, made = 0.0;
  } worst;
  marching::march(rig.sheet, network, worst, nullptr, &contacts);
  REQUIRE(contacts.positions().size() == grid.bodies.size());
  CHECK(worst.gap < 1e-12 * worst.made);
  for (std::size_t k = 0; k < contacts.positions().size(); ++k) {
    CHECK(contacts.positions()[k] > 0.1);
    CHECK(contacts.char_depth()[k] > 0.0);
    CHECK(contacts.char_depth()[k] < depth);
    CHECK(contacts.above_short_caution()[k] > 60.0);
    CHECK(contacts.above_long_caution()[k] > contacts.above_short_caution()[k]);
  }
}
