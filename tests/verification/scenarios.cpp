// SPDX-License-Identifier: MIT
#include "scenarios.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "marching/levels.hpp"

namespace ampstair::tests {

using scenario::Probe;
using scenario::Step;

std::shared_ptr<materials::Material> solid(const std::string& name, double conductivity,
                                           double density, double heat_capacity,
                                           double emissivity) {
  auto made = std::make_shared<materials::Material>();
  made->name = name;
  made->conductivity = {{300.0}, {conductivity}};
  made->density = density;
  made->heat_capacity = {{300.0}, {heat_capacity}};
  made->emissivity = emissivity;
  return made;
}

std::shared_ptr<materials::Material> metal(double conductivity, double density,
                                           double heat_capacity, double at_20, double coefficient,
                                           double emissivity) {
  auto made = solid("metal", conductivity, density, heat_capacity, emissivity);
  const auto resistivity = [&](double kelvin) {
    return at_20 * (1.0 + coefficient * (kelvin - zero_celsius - 20.0));
  };
  made->resistivity = {{100.0, 2000.0}, {resistivity(100.0), resistivity(2000.0)}};
  return made;
}

std::shared_ptr<materials::Material> copper() {
  return metal(401.0, 8960.0, 385.0, 1.7241e-8, 0.00393);
}

scenario::Surroundings still_air(double celsius) {
  scenario::Surroundings around;
  around.air = {{0.0, celsius + zero_celsius, 0.0}};
  return around;
}

scenario::Surroundings film(double coefficient, double emissivity, double celsius) {
  auto around = still_air(celsius);
  around.film = scenario::FixedFilm{coefficient, emissivity};
  return around;
}

Rig::Rig(scenario::Wire wire, scenario::Surroundings around) {
  sheet.wire = std::move(wire);
  sheet.start_temperature = around.air.front().temperature;
  sheet.surroundings = {std::move(around)};
  sheet.output = {"", 60.0, 0.0, 5e-3, 12, 0.03};
}

Rig& Rig::piece(const std::string& name, double length, decltype(scenario::Piece::kind) kind,
                std::size_t around) {
  scenario::Piece piece;
  piece.name = name;
  piece.begin = sheet.length();
  piece.length = length;
  piece.around = around;
  piece.kind = std::move(kind);
  sheet.run.push_back(std::move(piece));
  return *this;
}

Rig& Rig::faces(const scenario::Facing& facing) {
  sheet.run.back().facing = facing;
  return *this;
}

Rig& Rig::insulated_end() {
  scenario::CutEnd end;
  end.insulated = true;
  return piece("insulated end", 0.0, end);
}

Rig& Rig::held_end(double celsius) {
  scenario::CutEnd end;
  end.held_at = celsius + zero_celsius;
  return piece("held end", 0.0, end);
}

void Rig::add_step(Step::Kind kind, double level, double seconds) {
  Step step;
  step.kind = kind;
  step.level = level;
  step.duration = seconds;
  sheet.staircase.push_back(std::move(step));
}

Rig& Rig::hold(double ampere, double seconds) {
  add_step(Step::Kind::hold_current, ampere, seconds);
  return *this;
}

Rig& Rig::feed(double volt, double seconds) {
  add_step(Step::Kind::hold_voltage, volt, seconds);
  return *this;
}

Rig& Rig::rest(double seconds) {
  add_step(Step::Kind::rest, 0.0, seconds);
  return *this;
}

Rig& Rig::conductor_probe(double position) {
  sheet.probes.push_back({"conductor", position, Probe::Of::conductor, "", 0.0});
  return *this;
}

Rig& Rig::surface_probe(double position) {
  sheet.probes.push_back({"surface", position, Probe::Of::surface, "", 0.0});
  return *this;
}

Rig& Rig::radius_probe(double position, double radius) {
  sheet.probes.push_back({"radius", position, Probe::Of::radius, "", radius});
  return *this;
}

Rig& Rig::part_probe(double position, const std::string& part) {
  sheet.probes.push_back({part, position, Probe::Of::part, part, 0.0});
  return *this;
}

Rig& Rig::start(double celsius) {
  sheet.start_temperature = celsius + zero_celsius;
  return *this;
}

Rig long_wire(const scenario::Wire& wire, const scenario::Surroundings& around) {
  Rig rig(wire, around);
  rig.insulated_end().piece("wire", 1.0).insulated_end();
  rig.conductor_probe(0.5).surface_probe(0.5);
  return rig;
}

const Marched::Row& Marched::at(double time) const {
  for (const Row& row : rows) {
    if (std::abs(row.time - time) < 1e-6 * (1.0 + time)) {
      return row;
    }
  }
  throw std::logic_error("no output at this time");
}

double Marched::celsius(double time, std::size_t probe) const {
  return at(time).probe.at(probe) - zero_celsius;
}

double Marched::last_celsius(std::size_t probe) const {
  return last().probe.at(probe) - zero_celsius;
}

double Marched::worst_gap() const {
  double turnover = 0.0;
  for (const Row& row : rows) {
    turnover = std::max({turnover, row.ledger.made, std::abs(row.ledger.lost)});
  }
  double worst = 0.0;
  for (const Row& row : rows) {
    worst = std::max(worst, std::abs(row.ledger.gap()) / turnover);
  }
  return worst;
}

namespace {

class Keeper : public marching::Observer {
 public:
  Keeper(const marching::View& view, std::size_t probes, Marched& marched)
      : view_(view), probes_(probes), marched_(marched) {}

  void moment(const marching::Moment& moment) override {
    Marched::Row row;
    row.time = moment.time;
    row.step = moment.step;
    row.step_ends = moment.step_ends;
    row.probe.resize(probes_);
    view_.probes(moment, row.probe);
    row.temperature.assign(moment.temperature.begin(), moment.temperature.end());
    row.electrical = moment.electrical;
    row.power = moment.power;
    row.ledger = moment.ledger;
    marched_.rows.push_back(std::move(row));
  }
  void event(const marching::Event& event) override { marched_.events.push_back(event); }
  bool advanced(double time) override {
    marched_.ends.push_back(time);
    return true;
  }

 private:
  const marching::View& view_;
  std::size_t probes_;
  Marched& marched_;
};

}  // namespace

Marched run(const scenario::Scenario& scenario, double scale) {
  const auto grid = grid::build(scenario, scale);
  marching::HeatNetwork network(grid, scenario);
  const marching::View view(network, scenario);
  Marched marched;
  Keeper keeper(view, scenario.probes.size(), marched);
  marching::Levels levels(network, view, scenario);
  marched.summary = marching::march(scenario, network, keeper, &levels);
  return marched;
}

}  // namespace ampstair::tests
