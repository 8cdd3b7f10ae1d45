// SPDX-License-Identifier: MIT
#include "heat/wood.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "heat/enthalpy.hpp"
#include "heat/wood_properties.hpp"
#include "marching/stepper.hpp"
#include "marching/wood_contacts.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

constexpr double pi = std::numbers::pi;

// A millimetre of wood round a light rod that makes heat and hardly holds any.
constexpr double rod = 10e-3;                          // m, its radius
constexpr double thickness = 1e-3;                     // m
constexpr double per_metre = 3e-3;                     // ohm/m, the same at every temperature
constexpr double rod_heat = 24000.0 * pi * rod * rod;  // J/m/K
constexpr double wood_section = pi * (2.0 * rod + thickness) * thickness;  // m2
constexpr double flux = 1000.0 * 2.0 * pi * (rod + 0.5 * thickness);       // W/m at 1 kW/m2
constexpr double dry_density = 480.0;                                      // kg/m3

std::shared_ptr<materials::Material> softwood(double moisture) {
  auto wood = solid("wood", 0.1, dry_density, 1000.0);
  const double k = heat::conductivity_at_24(0.48, 0.0);
  wood->conductivity = {{253.15, 423.15}, {k * 0.89, k * 1.315}};
  wood->heat_capacity = {{280.0, 420.0},
                         {heat::dry_heat_capacity(280.0), heat::dry_heat_capacity(420.0)}};
  wood->moisture = moisture;
  wood->part = "wood";
  return wood;
}

double ampere(double heat_per_metre) {
  return std::sqrt(heat_per_metre / per_metre);
}

Rig wood_round_a_rod(double moisture, const scenario::Surroundings& around) {
  scenario::Wire wire;
  wire.metal = metal(400.0, 60.0, 400.0, per_metre * pi * rod * rod, 0.0);
  wire.diameter = 2.0 * rod;
  wire.layers = {{"wood", softwood(moisture), thickness}};
  Rig rig(wire, around);
  rig.insulated_end().piece("rod", 0.02).insulated_end();
  rig.conductor_probe(0.01).surface_probe(0.01);
  return rig;
}

/// Temperature [K] of rod and wood that have taken up some heat [J/m] from 11 degC on.
double lumped(double moisture, double heat) {
  constexpr double from = zero_celsius + 11.0;
  const heat::Wood wood(*softwood(moisture));
  const heat::Enthalpy enthalpy(wood.first_heating());
  const auto held = [&](double to) {
    return rod_heat * (to - from) + dry_density * wood_section * enthalpy.reference_capacity() *
                                        (enthalpy.variable(to) - enthalpy.variable(from));
  };
  double low = from;
  double high = from + 1000.0;
  for (int i = 0; i < 100; ++i) {
    const double middle = 0.5 * (low + high);
    (held(middle) < heat ? low : high) = middle;
  }
  return low;
}

/// First time [s] at which a probe is above a temperature, between rows by a straight line.
double when_above(const Marched& marched, std::size_t probe, double celsius) {
  for (std::size_t i = 1; i < marched.rows.size(); ++i) {
    const double before = marched.rows[i - 1].probe[probe] - zero_celsius;
    const double here = marched.rows[i].probe[probe] - zero_celsius;
    if (here >= celsius) {
      const double part = (celsius - before) / (here - before);
      return std::lerp(marched.rows[i - 1].time, marched.rows[i].time, part);
    }
  }
  return std::nan("");
}

/// Times [s] at which the conductor passes a temperature upwards and downwards, and the end's char.
class Exposure : public marching::Observer {
 public:
  explicit Exposure(double kelvin) : kelvin_(kelvin) {}

  void moment(const marching::Moment& moment) override {
    const double here = moment.temperature[0];
    if ((here >= kelvin_) != (last_ >= kelvin_)) {
      const double part = (kelvin_ - last_) / (here - last_);
      (here > last_ ? rose : fell) = std::lerp(last_time_, moment.time, part);
    }
    last_ = here;
    last_time_ = moment.time;
  }
  bool advanced(double /*time*/) override { return true; }

  double rose = 0.0, fell = 0.0;

 private:
  double kelvin_;
  double last_ = 0.0, last_time_ = 0.0;
};

}  // namespace

TEST_CASE("the heat of drying is held by steps of any length") {
  // Heat for 600 s that dries all the wood, then rest till all is even; the lumped balance by hand.
  const double latent = 0.12 * heat::heat_of_evaporation * dry_density * wood_section;
  for (const double joule : {16.5e3, 18.5e3}) {
    const double watt = joule / 600.0;
    const double kelvin = lumped(0.12, joule);
    auto rig = wood_round_a_rod(0.12, film(0.0, 0.0, 11.0));
    const auto grid = grid::build(rig.sheet);
    for (const double length : {0.1, 1.0, 10.0, 60.0, 600.0}) {
      marching::HeatNetwork network(grid, rig.sheet);
      marching::Stepper stepper(network, rig.sheet.start_temperature);
      network.set_surroundings(0.0);
      const auto march = [&](double duration, double current) {
        network.set_drive({scenario::Step::Kind::hold_current, current});
        const int steps = static_cast<int>(std::lround(duration / length));
        for (int i = 0; i < steps; ++i) {
          stepper.attempt(0.0, length);
          stepper.advance(1.0);
        }
      };
      march(600.0, ampere(watt));
      march(3600.0, 0.0);
      std::vector<double> temperature(grid.cells);
      std::vector<double> slope(grid.cells, 1.0);
      network.temperatures(stepper.state(), temperature, slope);
      CAPTURE(joule, length, kelvin - zero_celsius, temperature[0] - zero_celsius);
      const double per_kelvin =
          rod_heat + dry_density * wood_section * softwood(0.0)->heat_capacity.at(kelvin);
      CHECK(std::abs(temperature[0] - kelvin) * per_kelvin < 0.01 * latent);
      CHECK(std::abs(stepper.ledger().gap()) < 1e-12 * joule);
    }
  }
}

TEST_CASE("moisture delays a millimetre of wood by a factor of two and a half") {
  // 1 kW/m2 into 1 mm of 480 kg/m3 at 12 %: 86 s to 100 degC and 130 s for the water (independent
  // calculation with a constant heat capacity; 5 %); between 99 and 120 degC dry and moist wood
  // take 20 s more.
  auto rig = wood_round_a_rod(0.12, film(0.0, 0.0, 11.0));
  rig.hold(ampere(flux), 300.0);
  rig.sheet.output.every = 1.0;
  const auto marched = run(rig.sheet);
  const auto without_rod = [&](double celsius, double time) {
    return time - rod_heat * (celsius - 11.0) / flux;
  };
  const double middle_99 = 0.5 * (when_above(marched, 0, 99.0) + when_above(marched, 1, 99.0));
  const double warm = without_rod(99.0, middle_99);
  const double dry = without_rod(120.0, when_above(marched, 1, 120.0));
  CHECK(warm == Approx(86.0).epsilon(0.05));
  CHECK(dry == Approx(86.0 + 130.0 + 20.0).epsilon(0.05));
  CHECK(marched.worst_gap() < 1e-12);
}

TEST_CASE("wood warmed a second time warms as dry wood does") {
  const auto twice = [](double moisture) {
    auto rig = wood_round_a_rod(moisture, film(3.0, 0.0, 20.0));
    rig.hold(ampere(flux), 420.0).rest(20000.0).hold(ampere(flux), 420.0);
    rig.sheet.output.every = 20.0;
    return run(rig.sheet);
  };
  const auto moist = twice(0.12);
  const auto dry = twice(0.0);
  CHECK(moist.celsius(420.0, 1) > 121.0);  // it had dried
  CHECK(moist.celsius(420.0, 1) < 200.0);  // and not charred
  CHECK(dry.celsius(200.0, 1) - moist.celsius(200.0, 1) > 10.0);
  // Dry wood's first warming, as long as it does not char.
  for (double t = 20.0; dry.celsius(t, 0) < 195.0; t += 20.0) {
    CAPTURE(t);
    CHECK(moist.celsius(20420.0 + t, 0) == Approx(dry.celsius(t, 0)).margin(0.2));
    CHECK(moist.celsius(20420.0 + t, 1) == Approx(dry.celsius(t, 1)).margin(0.2));
  }
  CHECK(moist.worst_gap() < 1e-12);
}

TEST_CASE("charred wood that cools and is warmed again keeps its heat in balance") {
  auto rig = wood_round_a_rod(0.12, film(8.0, 0.0, 20.0));
  rig.hold(ampere(6.0 * flux), 100.0).rest(6000.0).hold(ampere(flux), 100.0).rest(6000.0);
  rig.sheet.output.every = 10.0;
  const auto marched = run(rig.sheet);
  CHECK(marched.celsius(100.0, 1) > 350.0);
  CHECK(marched.celsius(6100.0, 1) == Approx(20.0).margin(0.5));
  CHECK(marched.worst_gap() < 1e-12);
  // C dT/dt = q - h A (T - 20 degC) for the rod and the char's share of the wood's mass at 710
  // J/kg/K (EN 1995-1-2 table B.2 at 300 degC, from memory); lumped, hence 10 %.
  const double left = heat::en_1995_mass_ratio(0.0).at(zero_celsius + marched.celsius(100.0, 1));
  const double capacity = rod_heat + left * 710.0 * dry_density * wood_section;
  const double loss = 8.0 * 2.0 * pi * (rod + thickness);
  const double lumped_rise = flux / loss * (1.0 - std::exp(-loss * 20.0 / capacity));
  CHECK(0.5 * (marched.celsius(6120.0, 0) + marched.celsius(6120.0, 1)) - 20.0 ==
        Approx(lumped_rise).epsilon(0.1));
  // What char holds is left out of what went in: the heat of drying and charring stays stored.
  CHECK(marched.last().ledger.stored >
        0.02 * dry_density * wood_section * 0.12 * heat::heat_of_evaporation);
}

TEST_CASE("a step of drying wood looked into, tried again and cut goes on where it was") {
  auto rig = wood_round_a_rod(0.12, film(8.0, 0.0, 20.0));
  const auto grid = grid::build(rig.sheet);
  marching::HeatNetwork network(grid, rig.sheet);
  marching::Stepper stepper(network, rig.sheet.start_temperature);
  network.set_surroundings(0.0);
  network.set_drive({scenario::Step::Kind::hold_current, ampere(2.0 * flux)});
  std::vector<double> inside(grid.cells);
  std::vector<double> after(grid.cells);
  std::vector<double> slope(grid.cells, 1.0);
  const marching::Stretch whole{0, grid.cells};
  for (int i = 0; i < 60; ++i) {
    stepper.attempt(0.0, 40.0);  // thrown away
    stepper.attempt(0.0, 3.0);
    stepper.temperatures_at(0.7, std::span(&whole, 1), inside);
    stepper.advance(0.7);
    network.temperatures(stepper.state(), after, slope);
    for (std::size_t c = 0; c < grid.cells; ++c) {
      REQUIRE(after[c] == Approx(inside[c]).margin(1e-9));
    }
    if (i == 40) {
      network.set_drive({scenario::Step::Kind::rest, 0.0});
    }
  }
  CHECK(after[0] < 400.0);  // it has dried and cools
  CHECK(std::abs(stepper.ledger().gap()) < 1e-12 * stepper.ledger().made);
}

TEST_CASE("the char line is where a steady ring is at 300 degC, and stays there") {
  // ln(r / r0) = 2 pi k (T0 - T) / q, with T0 = 400 degC at r0 = 2 mm; 2 % for the straight line
  // between cells. The face is as hot as the rod.
  constexpr double inner = 2e-3;
  constexpr double k = 0.1;
  const double path = std::log(6.0) / (2.0 * pi * k) + 1.0 / (2.0 * pi * 6.0 * inner * 20.0);
  const double heat = 380.0 / path;  // W/m
  scenario::Wire wire;
  wire.metal = metal(400.0, 60.0, 400.0, per_metre * pi * inner * inner, 0.0);
  wire.diameter = 2.0 * inner;
  wire.layers = {{"wood", solid("wood", k, 480.0, 1600.0), 5.0 * inner}};
  Rig rig(wire, film(20.0, 0.0, 20.0));
  rig.insulated_end().piece("rod", 0.02).insulated_end();
  rig.hold(ampere(heat), 20000.0).rest(5000.0);
  rig.sheet.output.every = 1.0;
  rig.sheet.output.radial_cells = 24;
  const auto grid = grid::build(rig.sheet);
  marching::HeatNetwork network(grid, rig.sheet);
  marching::WoodContacts contacts(network);
  REQUIRE(contacts.positions() == grid.station_centre);
  Exposure exposure(marching::WoodContacts::long_caution);
  marching::march(rig.sheet, network, exposure, nullptr, &contacts);
  const double depth = inner * (std::exp(2.0 * pi * k * 100.0 / heat) - 1.0);
  for (std::size_t j = 0; j < contacts.positions().size(); ++j) {
    CHECK(contacts.char_depth()[j] == Approx(depth).epsilon(0.02));
    CHECK(contacts.above_long_caution()[j] == Approx(exposure.fell - exposure.rose).margin(1.0));
    CHECK(contacts.above_short_caution()[j] < contacts.above_long_caution()[j]);
  }
}
