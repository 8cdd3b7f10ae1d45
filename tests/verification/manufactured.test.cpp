// SPDX-License-Identifier: MIT
// Manufactured solutions: temperatures are chosen, the source that would keep them up is found by
// hand, and the network with that source is solved. (Roache, Verification and Validation in
// Computational Science and Engineering, chapter 3; from memory. The formulas are worked out here.)
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <vector>

#include "forced_balance.hpp"
#include "grid/column.hpp"
#include "has_order.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

constexpr double pi = std::numbers::pi;
constexpr double air = 20.0 + zero_celsius;
constexpr double film_coefficient = 12.0;  // W/m2/K
constexpr double core = 0.8e-3;            // m, radius of the conductor
constexpr double length = 0.2;             // m, between insulated ends

/// theta(z, t) = A(t) + B(t) cos(pi z / length): no slope at the ends.
struct Rise {
  double value, slope, curvature, rate;  // K, K/m, K/m2, K/s
};
Rise rise_at(double z, double t) {
  constexpr double omega = 0.02;  // 1/s
  const double a = 60.0 + 20.0 * std::sin(omega * t);
  const double b = 25.0 - 15.0 * std::sin(omega * t);
  const double wave = pi / length;
  const double c = std::cos(wave * z);
  return {a + b * c, -wave * b * std::sin(wave * z), -wave * wave * b * c,
          omega * std::cos(omega * t) * (20.0 - 15.0 * c)};
}

/// A curve v0 (1 + slope (T - air)).
materials::Curve linear(double value, double slope) {
  return {{air - 200.0, air + 400.0},
          {value * (1.0 - 200.0 * slope), value * (1.0 + 400.0 * slope)}};
}

/// Where a cell of the run lies.
struct Place {
  std::size_t station;
  double inner, outer;  // m
};

std::vector<Place> places(const grid::Grid& grid) {
  std::vector<Place> found(grid.cells, Place{0, 0.0, 0.0});
  for (std::size_t j = 0; j < grid.stations(); ++j) {
    for (const auto& cell : grid::column_at(grid, j)) {
      found[cell.cell] = {j, cell.inner_radius, cell.outer_radius};
    }
  }
  return found;
}

/// A solution and what keeps it up.
class Manufactured {
 public:
  Manufactured() = default;
  Manufactured(const Manufactured&) = delete;
  Manufactured& operator=(const Manufactured&) = delete;
  virtual ~Manufactured() = default;
  /// K; inside the conductor that of its surface
  [[nodiscard]] virtual double temperature(double r, double z, double t) const = 0;
  /// W/m3 at a place outside the conductor
  [[nodiscard]] virtual double source(double r, double z, double t) const = 0;
  /// W/m3 in the conductor
  [[nodiscard]] virtual double core_source(double z, double t) const = 0;
};

// ---- one covering, everything following temperature ------------------------------------------

constexpr double outside = 3e-3;           // m
constexpr double k0 = 0.2, beta = 2e-3;    // covering: k = k0 (1 + beta (T - air))
constexpr double c0 = 2e6, gamma_ = 3e-3;  // rho c = c0 (1 + gamma (T - air)), J/m3/K
constexpr double core_k0 = 390.0, core_beta = -5e-4;
constexpr double core_c0 = 3.4e6, core_gamma = 4e-4;

/// T = air + theta + F(theta) p(r),  p = (R^2 - r^2) / (2 R),  F = h theta / (k0 (1 + beta theta)):
/// at r = R, p = 0 and p' = -1, so k(T) dT/dr = -h theta is what the film takes.
///   dT/dz = theta' (1 + F' p),  d2T/dz2 = theta'' (1 + F' p) + theta'^2 F'' p,
///   dT/dt = dtheta/dt (1 + F' p),  dT/dr = -F r / R,  (1/r) d(r dT/dr)/dr = -2 F / R,
///   source = rho c(T) dT/dt - k(T) (d2T/dz2 - 2 F / R) - k0 beta ((dT/dz)^2 + (dT/dr)^2).
/// In the conductor, one temperature over its section, T(a, z, t):
///   source = rho c(T) dT/dt - k(T) d2T/dz2 - dk/dT (dT/dz)^2 - (2 / a) k_covering dT/dr(a).
class Covered : public Manufactured {
 public:
  /// @param moving false: as it is at t = 0, for ever
  explicit Covered(bool moving) : moving_(moving) {}

  double temperature(double r, double z, double t) const override {
    return at(r, z, t).temperature;
  }
  double source(double r, double z, double t) const override {
    const State s = at(r, z, t);
    const double excess = s.temperature - air;
    return c0 * (1.0 + gamma_ * excess) * s.rate -
           k0 * (1.0 + beta * excess) * (s.curvature - 2.0 * s.strength / outside) -
           k0 * beta * (s.slope * s.slope + s.radial * s.radial);
  }
  double core_source(double z, double t) const override {
    const State s = at(core, z, t);
    const double excess = s.temperature - air;
    return core_c0 * (1.0 + core_gamma * excess) * s.rate -
           core_k0 * (1.0 + core_beta * excess) * s.curvature -
           core_k0 * core_beta * s.slope * s.slope -
           2.0 / core * k0 * (1.0 + beta * excess) * s.radial;
  }

  static Rig rig() {
    auto metal = solid("metal", 1.0, 8900, 1.0);
    metal->conductivity = linear(core_k0, core_beta);
    metal->heat_capacity = linear(core_c0 / 8900, core_gamma);
    metal->resistivity = {{300.0}, {1.7e-8}};
    auto rubber = solid("rubber", 1.0, 1200, 1.0);
    rubber->conductivity = linear(k0, beta);
    rubber->heat_capacity = linear(c0 / 1200, gamma_);
    Rig rig({metal, 2.0 * core, {{"rubber", rubber, outside - core}}},
            film(film_coefficient, 0.0, air - zero_celsius));
    rig.insulated_end().piece("wire", length).insulated_end().rest(1);
    return rig;
  }

 private:
  struct State {
    double temperature, slope, curvature, rate, radial, strength;
  };
  State at(double r, double z, double t) const {
    const Rise theta = rise_at(z, moving_ ? t : 0.0);
    const double p = (outside * outside - r * r) / (2.0 * outside);
    const double d = 1.0 + beta * theta.value;
    const double h = film_coefficient / k0;
    const double f = h * theta.value / d;
    const double first = h / (d * d);
    const double second = -2.0 * beta * h / (d * d * d);
    const double along = 1.0 + first * p;
    return {air + theta.value + f * p,
            theta.slope * along,
            theta.curvature * along + theta.slope * theta.slope * second * p,
            moving_ ? theta.rate * along : 0.0,
            -f * r / outside,
            f};
  }
  bool moving_;
};

// ---- a tube all along: four media, conductivities far apart
// --------------------------------------

struct Ring {
  double outer, conductivity;
};
constexpr Ring rings[] = {{2e-3, 0.16}, {4e-3, 0.05}, {8e-3, 1.7}};

/// T = air + theta(z) phi(r) with one flux through all media: -k phi' = h r / R, phi(R) = 1, so
/// phi(r) = 1 + the sum over the rings outside r of h (r2^2 - r1^2) / (2 R k): continuous, as k
/// phi' is.
///   source = 2 h theta / R - k phi theta'',
/// and in the conductor -k phi(a) theta'' + 2 h theta / R too: its surface gives h (a / R) theta.
class Tubed : public Manufactured {
 public:
  double temperature(double r, double z, double /*t*/) const override {
    return air + rise_at(z, 0.0).value * phi(r);
  }
  double source(double r, double z, double /*t*/) const override {
    return made(z, r, std::find_if(std::begin(rings), std::end(rings), [&](const Ring& ring) {
                        return r < ring.outer;
                      })->conductivity);
  }
  double core_source(double z, double /*t*/) const override { return made(z, core, core_k0); }

  static Rig rig() {
    scenario::Tube tube;
    tube.bore = 2.0 * rings[1].outer;
    tube.outer = 2.0 * rings[2].outer;
    tube.gap = solid("filling", rings[1].conductivity, 100, 1000);
    tube.body = solid("porcelain", rings[2].conductivity, 2400, 900);
    Rig rig(
        {metal(core_k0, 8900, 385, 1.7e-8, 0.0),
         2.0 * core,
         {{"rubber", solid("rubber", rings[0].conductivity, 1200, 1700), rings[0].outer - core}}},
        film(film_coefficient, 0.0, air - zero_celsius));
    rig.insulated_end().piece("T", length, tube).insulated_end().rest(1);
    return rig;
  }

 private:
  static constexpr double whole = rings[2].outer;
  static double phi(double r) {
    double sum = 1.0;
    double inner = core;
    for (const Ring& ring : rings) {
      const double from = std::max(inner, r);
      if (from < ring.outer) {
        sum += film_coefficient * (ring.outer * ring.outer - from * from) /
               (2.0 * whole * ring.conductivity);
      }
      inner = ring.outer;
    }
    return sum;
  }
  static double made(double z, double r, double conductivity) {
    const Rise theta = rise_at(z, 0.0);
    return 2.0 * film_coefficient / whole * theta.value - conductivity * phi(r) * theta.curvature;
  }
};

/// One grid with the solution laid over it.
class Laid {
 public:
  Laid(const Manufactured& exact, const Rig& rig, double scale)
      : exact_(exact),
        grid_(grid::build(rig.sheet, scale)),
        network_(grid_, rig.sheet),
        place_(places(grid_)),
        balance_(network_, [this](std::size_t cell, double t) { return source(cell, t); }) {}

  double steady_error() { return worst(balance_.steady(uniform()), 0.0); }
  double error_after(double end, int steps) {
    return worst(balance_.march(enthalpies(), end, steps), end);
  }

 private:
  [[nodiscard]] std::vector<double> uniform() const { return network_.uniform(air + 60.0); }
  /// u of the exact temperatures at t = 0.
  [[nodiscard]] std::vector<double> enthalpies() const {
    auto u = network_.uniform(air);
    for (std::size_t c = 0; c < grid_.cells; ++c) {
      if (grid_.volume[c] > 0.0) {
        u[c] = network_.uniform(temperature(c, 0.0))[c];
      }
    }
    return u;
  }
  [[nodiscard]] double middle(std::size_t cell) const {
    return grid_.station_centre[place_[cell].station];
  }
  [[nodiscard]] bool in_core(std::size_t cell) const { return cell < grid_.stations(); }
  /// Where a cell's temperature holds: see grid::log_mean_radius.
  [[nodiscard]] double temperature(std::size_t cell, double t) const {
    const Place& p = place_[cell];
    const double r = in_core(cell) ? core : std::exp(grid::log_mean_radius(p.inner, p.outer));
    return exact_.temperature(r, middle(cell), t);
  }
  [[nodiscard]] double source(std::size_t cell, double t) const {
    const Place& p = place_[cell];
    const double half = std::sqrt(0.5 * (p.inner * p.inner + p.outer * p.outer));
    return grid_.volume[cell] * (in_core(cell) ? exact_.core_source(middle(cell), t)
                                               : exact_.source(half, middle(cell), t));
  }
  [[nodiscard]] double worst(const std::vector<double>& found, double t) const {
    double largest = 0.0;
    for (std::size_t c = 0; c < grid_.cells; ++c) {
      if (grid_.volume[c] > 0.0) {
        largest = std::max(largest, std::abs(found[c] - temperature(c, t)));
      }
    }
    return largest;
  }

  const Manufactured& exact_;
  grid::Grid grid_;
  marching::HeatNetwork network_;
  std::vector<Place> place_;
  ForcedBalance balance_;
};

Convergence steady_errors(const Manufactured& exact, Rig rig) {
  rig.sheet.output.grid = 0.02;
  rig.sheet.output.radial_cells = 12;
  Convergence found;
  for (const double scale : {1.0, 2.0, 4.0}) {
    Laid laid(exact, rig, scale);
    found.size.push_back(1.0 / scale);
    found.error.push_back(laid.steady_error());
  }
  return found;
}

}  // namespace

TEST_CASE("order 2 against a manufactured solution: conductivities that follow temperature") {
  CHECK_THAT(steady_errors(Covered(false), Covered::rig()), HasOrder(2.0));
}

TEST_CASE("order 2 against a manufactured solution: four media round one another") {
  CHECK_THAT(steady_errors(Tubed(), Tubed::rig()), HasOrder(2.0));
}

TEST_CASE("order 2 against a manufactured solution that moves: heat capacities, too") {
  // Time steps halve with the cells: the trapezoidal rule of the test is of order 2 as well.
  const Covered exact(true);
  auto rig = Covered::rig();
  rig.sheet.output.grid = 0.02;
  rig.sheet.output.radial_cells = 12;
  Convergence found;
  for (const double scale : {0.5, 1.0, 2.0, 4.0}) {
    Laid laid(exact, rig, scale);
    found.size.push_back(1.0 / scale);
    found.error.push_back(laid.error_after(100.0, static_cast<int>(20 * scale)));
  }
  CHECK_THAT(found, HasOrder(2.0));
}
