// SPDX-License-Identifier: MIT
#include "marching/wood_cells.hpp"

namespace ampstair::marching {

void WoodCells::add(std::size_t cell, const std::shared_ptr<const heat::Wood>& wood,
                    std::size_t cells) {
  place_.resize(cells, nowhere);
  place_[cell] = woods_.size();
  woods_.push_back({cell, wood, {}});
}

void WoodCells::temperatures(std::size_t first, std::size_t end,
                             std::span<double> u_then_temperature, std::span<double> slope) const {
  for (const Cell& here : woods_) {
    if (here.cell >= first && here.cell < end) {
      const auto state = here.wood->at(u_then_temperature[here.cell], here.past);
      u_then_temperature[here.cell] = state.temperature;
      if (!slope.empty()) {
        slope[here.cell] = state.slope;
      }
    }
  }
}

void WoodCells::conductivities(std::span<const double> temperature,
                               std::span<double> conductivity) const {
  for (const Cell& here : woods_) {
    conductivity[here.cell] = here.wood->conductivity(temperature[here.cell], here.past);
  }
}

void WoodCells::begin(std::span<const double> u) {
  for (Cell& here : woods_) {
    here.past = here.wood->past(u[here.cell]);
  }
}

void WoodCells::remember(std::span<const double> u) {
  for (Cell& here : woods_) {
    if (u[here.cell] > here.past.most) {
      here.past = here.wood->past(u[here.cell]);
    }
  }
}

}  // namespace ampstair::marching
