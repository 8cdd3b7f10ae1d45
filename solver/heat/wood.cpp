// SPDX-License-Identifier: MIT
#include "heat/wood.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "diagnostics/contract.hpp"
#include "heat/constants.hpp"
#include "heat/wood_properties.hpp"

namespace ampstair::heat {

namespace {

constexpr double water_capacity = 4180.0;     // J/kg/K, as in Wood Handbook eq. 4-17
constexpr double room = zero_celsius + 24.0;  // K, of Wood Handbook eq. 4-15
// A jump of a given curve is a ramp of this width where it has to be continuous.
constexpr double ramp = 1e-3;  // K
// EN 1995-1-2 lets the char of a fire burn away above; a knob's char has no such air.
constexpr double last_mass_at = zero_celsius + 800.0;  // K

/// Temperatures [K] of a curve between two others, both left out; the foot of every jump beside it.
void add_temperatures(const materials::Curve& curve, double from, double to,
                      std::vector<double>& temperatures) {
  for (std::size_t i = 0; i < curve.temperature.size(); ++i) {
    const double t = curve.temperature[i];
    const bool jump = i + 1 < curve.temperature.size() && curve.temperature[i + 1] == t;
    if (t > from && t < to) {
      temperatures.push_back(jump ? t - ramp : t);
    }
  }
}

/// Char's share of a curve of EN 1995-1-2: from 300 degC on, constant below.
materials::Curve from_char_line(const materials::Curve& curve, double begin) {
  materials::Curve char_only;
  for (std::size_t i = 0; i < curve.value.size(); ++i) {
    if (curve.temperature[i] >= begin) {
      char_only.temperature.push_back(curve.temperature[i]);
      char_only.value.push_back(curve.value[i]);
    }
  }
  return char_only;
}

void tidy(std::vector<double>& temperatures) {
  std::sort(temperatures.begin(), temperatures.end());
  temperatures.erase(std::unique(temperatures.begin(), temperatures.end()), temperatures.end());
}

/// Lays the curve of the first heating before anything that counts in it.
struct FirstHeating {
  const materials::Curve& dry;
  double moisture;

  [[nodiscard]] double moist(double kelvin) const {
    return dry.at(kelvin) + water_capacity * moisture +
           (1.0 + moisture) * heat_capacity_of_bond(moisture, kelvin);
  }

  [[nodiscard]] materials::Curve operator()() const {
    materials::Curve curve;
    const auto add = [&](double kelvin, double value) {
      curve.temperature.push_back(kelvin);
      curve.value.push_back(value);
    };
    // The bond's heat capacity is negative in hard frost; the moist curve begins where wood is warm
    // enough for it.
    std::vector<double> below{first_temperature()};
    add_temperatures(dry, below.front(), drying_begins, below);
    tidy(below);
    for (const double t : below) {
      add(t, moist(t));
    }
    const double latent = moisture * heat_of_evaporation / (drying_ends - drying_begins);
    add(drying_begins, moist(drying_begins));
    add(drying_begins, moist(drying_begins) + latent);
    add(drying_ends, dry.at(drying_ends) + latent);
    add(drying_ends, dry.at(drying_ends));
    std::vector<double> above{charring_begins};
    add_temperatures(dry, drying_ends, charring_begins, above);
    tidy(above);
    for (const double t : above) {
      add(t, dry.at(t));
    }
    add_charring(add);
    return curve;
  }

  [[nodiscard]] double first_temperature() const {
    constexpr double coldest = 250.0;  // K
    return std::min(std::max(dry.temperature.front(), coldest), 280.0);
  }

  /// Heat capacity times mass of EN 1995-1-2, whose product is no straight line: halves, too.
  template <class Add>
  void add_charring(const Add& add) const {
    const auto capacity = en_1995_heat_capacity(0.0);
    const auto mass = en_1995_mass_ratio(0.0);
    std::vector<double> temperatures;
    add_temperatures(mass, charring_begins, last_mass_at + 1.0, temperatures);
    double before = charring_begins;
    for (const double t : temperatures) {
      for (const double at : {0.5 * (before + t), t}) {
        add(at, capacity.at(at) * mass.at(at));
      }
      before = t;
    }
  }
};

}  // namespace

Wood::Wood(const materials::Material& material)
    : moisture_(material.moisture.value_or(0.0)),
      specific_gravity_(1e-3 * material.density),
      dry_at_24_(material.conductivity.at(room)),
      dry_conductivity_(material.conductivity),
      coal_conductivity_(from_char_line(en_1995_conductivity(), charring_ends)),
      dry_capacity_(material.heat_capacity),
      coal_capacity_(from_char_line(en_1995_heat_capacity(0.0), char_line)),
      coal_mass_(en_1995_mass_ratio(0.0)),
      first_heating_(FirstHeating{dry_capacity_, moisture_}()),
      enthalpy_(first_heating_) {
  diagnostics::expects(material.moisture.has_value(), "only wood with its moisture stated is Wood");
  lay_knots();
  drying_u_ = enthalpy_.variable(moisture_ > 0.0 ? drying_begins : charring_begins);
}

double Wood::moist_capacity(double kelvin) const {
  return FirstHeating{dry_capacity_, moisture_}.moist(
      std::clamp(kelvin, first_heating_.temperature.front(), drying_ends));
}

void Wood::lay_knots() {
  const double first = first_heating_.temperature.front();
  std::vector<double> temperatures{first, drying_ends, charring_begins, last_mass_at};
  add_temperatures(dry_capacity_, first, charring_begins, temperatures);
  add_temperatures(coal_capacity_, first, last_mass_at, temperatures);
  tidy(temperatures);
  for (const double t : temperatures) {
    Knot knot{};
    knot.temperature = t;
    knot.moist = moist_capacity(t);
    knot.dry = dry_capacity_.at(std::min(t, charring_begins));
    knot.coal = coal_capacity_.at(t);
    if (!knots_.empty()) {
      const Knot& before = knots_.back();
      const double half = 0.5 * (t - before.temperature);
      knot.moist_heat = before.moist_heat + half * (before.moist + knot.moist);
      knot.dry_heat = before.dry_heat + half * (before.dry + knot.dry);
      knot.coal_heat = before.coal_heat + half * (before.coal + knot.coal);
    }
    knots_.push_back(knot);
  }
}

Wood::Shares Wood::shares(double hottest) {
  const auto part = [&](double from, double to) {
    return std::clamp((hottest - from) / (to - from), 0.0, 1.0);
  };
  return {part(drying_begins, drying_ends), part(charring_begins, charring_ends)};
}

Wood::Past Wood::past(double most) const {
  Past past;
  if (most <= drying_u_) {
    return past;
  }
  past.most = most;
  past.hottest = enthalpy_.at(most).temperature;
  const auto [dried, charred] = shares(past.hottest);
  const double mass = coal_mass_.at(std::min(past.hottest, last_mass_at));
  past.moist = 1.0 - dried;
  past.dry = dried * (1.0 - charred) * mass;
  past.coal = dried * charred * mass;
  return past;
}

/// The heat given back from the hottest down to T is that of what is left: solved for T.
Enthalpy::State Wood::again(double u, const Past& past) const {
  const auto heat = [&](const Knot& k) { return sum(past, k.moist_heat, k.dry_heat, k.coal_heat); };
  const auto capacity = [&](const Knot& k) { return sum(past, k.moist, k.dry, k.coal); };
  const auto segment = [&](const auto& goes_on) {
    std::size_t i = 0;
    while (i + 1 < knots_.size() && goes_on(knots_[i + 1])) {
      ++i;
    }
    return i;
  };
  const auto slope = [&](std::size_t i) {
    return i + 1 < knots_.size() ? (capacity(knots_[i + 1]) - capacity(knots_[i])) /
                                       (knots_[i + 1].temperature - knots_[i].temperature)
                                 : 0.0;
  };
  const std::size_t top = segment([&](const Knot& k) { return k.temperature <= past.hottest; });
  const double above = past.hottest - knots_[top].temperature;
  const double wanted = heat(knots_[top]) +
                        above * (capacity(knots_[top]) + 0.5 * slope(top) * above) -
                        (past.most - u);
  if (wanted <= 0.0) {
    const double first = capacity(knots_.front());
    return {knots_.front().temperature + wanted / first, 1.0 / first};
  }
  const std::size_t i = segment([&](const Knot& k) { return heat(k) <= wanted; });
  const double rest = wanted - heat(knots_[i]);
  const double c = capacity(knots_[i]);
  const double root = std::sqrt(c * c + 2.0 * slope(i) * rest);
  return {knots_[i].temperature + 2.0 * rest / (c + root), 1.0 / root};
}

double Wood::conductivity(double kelvin, const Past& past) const {
  const auto [dried, charred] = shares(std::max(kelvin, past.hottest));
  const double dry = dry_conductivity_.at(std::min(kelvin, charring_begins));
  const double water =
      conductivity_at_24(specific_gravity_, moisture_) - conductivity_at_24(specific_gravity_, 0.0);
  const double moist = dry * (1.0 + (1.0 - dried) * water / dry_at_24_);
  return charred > 0.0 ? std::lerp(moist, coal_conductivity_.at(kelvin), charred) : moist;
}

}  // namespace ampstair::heat
