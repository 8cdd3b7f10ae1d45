// SPDX-License-Identifier: MIT
#include "even_steps.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "marching/stepper.hpp"

namespace ampstair::tests {

namespace {

struct Stretch {
  double begin, end;
  marching::Drive drive;
};

std::vector<Stretch> stretches(const scenario::Scenario& scenario) {
  std::vector<Stretch> found;
  double begin = 0.0;
  for (const auto& step : scenario.staircase) {
    const double end = begin + step.duration;
    std::vector<double> cuts{end};
    for (const auto& around : scenario.surroundings) {
      for (const auto& air : around.air) {
        if (air.from_time > begin && air.from_time < end) {
          cuts.push_back(air.from_time);
        }
      }
    }
    std::sort(cuts.begin(), cuts.end());
    for (const double cut : cuts) {
      if (cut > begin) {
        found.push_back({begin, cut, {step.kind, step.level}});
        begin = cut;
      }
    }
  }
  return found;
}

}  // namespace

std::vector<double> EvenSteps::march(const scenario::Scenario& scenario, const grid::Grid& grid,
                                     int count) const {
  marching::HeatNetwork network(grid, scenario);
  marching::Stepper stepper(network, scenario.start_temperature);
  if (corners) {
    stepper.always(*corners);
  }
  double time = 0.0;
  const auto take = [&](double length) {
    stepper.attempt(time, length);
    stepper.advance(1.0);
    time += length;
  };
  for (const Stretch& stretch : stretches(scenario)) {
    network.set_drive(stretch.drive);
    network.set_surroundings(stretch.begin);
    const double whole = stretch.end - stretch.begin;
    constexpr double growth = 1.03;
    double length = settling * whole * (growth - 1.0) / (std::pow(growth, settling_steps) - 1.0);
    for (int i = 0; i < settling_steps; ++i) {
      take(length);
      length *= growth;
    }
    for (int i = 0; i < count; ++i) {
      take((1.0 - settling) * whole / count);
    }
  }
  std::vector<double> temperature(grid.cells);
  std::vector<double> slope(grid.cells, 1.0);
  network.temperatures(stepper.state(), temperature, slope);
  return temperature;
}

EvenSteps::Study EvenSteps::halve(const scenario::Scenario& scenario, int count,
                                  int halvings) const {
  const auto grid = grid::build(scenario);
  Refinement conductor;
  Refinement anywhere;
  for (int i = 0; i <= halvings; ++i) {
    auto temperature = march(scenario, grid, count);
    anywhere.add(1.0 / count, temperature);
    temperature.resize(grid.stations());
    conductor.add(1.0 / count, std::move(temperature));
    count *= 2;
  }
  return {conductor.against_next(), anywhere.against_next()};
}

}  // namespace ampstair::tests
