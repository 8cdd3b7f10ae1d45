// SPDX-License-Identifier: MIT
// What the cells are made of.
#include <algorithm>
#include <utility>

#include "heat/gap.hpp"
#include "marching/network.hpp"

namespace ampstair::marching {

namespace {

constexpr double massless_limit = 2e4;  // J/m3/K: gases lie below, everything else far above

/// The air of a gap round the wire or beside it.
materials::Material gas_of(const grid::Medium& medium) {
  if (medium.faced) {
    return heat::faced_air(medium.faced->conduction_shape, medium.faced->exchange_width);
  }
  const grid::AirGap& gap = *medium.gap;
  return heat::gap_air(
      {gap.inner_radius, gap.outer_radius, gap.inner_emissivity, gap.outer_emissivity});
}

}  // namespace

void HeatNetwork::describe_media(const scenario::Scenario& scenario) {
  for (const grid::Medium& m : grid_.media) {
    const materials::Material gas = m.material ? materials::Material{} : gas_of(m);
    const materials::Material& material = m.material ? *m.material : gas;
    Medium medium;
    const bool breaks_down = m.material && material.breakdown.has_value();
    medium.breaks_down = breaks_down ? &material : nullptr;
    medium.varies = !material.conductivity.constant() ||
                    (breaks_down && (material.breakdown->conductivity_after ||
                                     material.breakdown->mass_lost > 0.0)) ||
                    may_go(m);
    medium.fixed_conductivity = material.conductivity.at(scenario.start_temperature);
    if (medium.varies) {
      medium.conductivity = Lookup(material.conductivity);
    }
    double capacity = material.heat_capacity.at(scenario.start_temperature);
    if (material.moisture) {
      medium.wood = std::make_shared<const heat::Wood>(material);
      medium.varies = true;
    }
    if (medium.wood || !material.heat_capacity.constant()) {
      medium.enthalpy.emplace(medium.wood ? medium.wood->first_heating() : material.heat_capacity);
      capacity = medium.enthalpy->reference_capacity();
    }
    medium.heat_per_volume = material.density * capacity;
    medium.nearly_massless = medium.heat_per_volume < massless_limit;
    if (!material.resistivity.value.empty()) {
      medium.resistivity = Lookup(material.resistivity);
    }
    media_.push_back(std::move(medium));
  }
  const scenario::Lead& lead = scenario.supply.lead;
  if (lead.metal) {
    double modelled = 0.0;
    for (const auto& body : grid_.bodies) {
      for (const double shape : body.metres_per_area) {
        modelled += shape;
      }
    }
    unmodelled_leads_ = lead.metal->resistivity.at(scenario.start_temperature) *
                        std::max(0.0, lead.length / lead.area - modelled);
  }
}

void HeatNetwork::lay_enthalpy_stretches() {
  enthalpy_stretches_.clear();
  for (const std::size_t c : enthalpy_cells_) {
    if (woods_.hold(c)) {
      continue;
    }
    const bool goes_on = !enthalpy_stretches_.empty() &&
                         enthalpy_stretches_.back().first + enthalpy_stretches_.back().count == c &&
                         enthalpy_stretches_.back().medium == grid_.medium[c];
    if (!goes_on) {
      enthalpy_stretches_.push_back({c, 0, grid_.medium[c]});
    }
    ++enthalpy_stretches_.back().count;
  }
}

void HeatNetwork::lay_gas_links() {
  std::vector<const Lookup*> gas;
  for (const Medium& medium : media_) {
    gas.push_back(medium.nearly_massless && medium.varies ? &medium.conductivity : nullptr);
  }
  gas_links_ = std::make_unique<GasLinks>(grid_, *rows_, std::move(gas));
}

}  // namespace ampstair::marching
