// SPDX-License-Identifier: MIT
#include "verbs/recorder.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "heat/constants.hpp"

namespace ampstair::verbs {

Recorder::Recorder(const scenario::Scenario& scenario, const marching::HeatNetwork& network,
                   marching::View& view, history::RecordWriter& writer, KeepGoing keep_going)
    : scenario_(scenario),
      network_(network),
      view_(view),
      writer_(writer),
      keep_going_(std::move(keep_going)),
      next_field_(scenario.output.field_every) {
  const std::size_t stations = network.grid().stations();
  const std::size_t scalars = 10;
  rows_.assign(scalars, std::vector<double>(1));
  rows_.resize(scalars + 2, std::vector<double>(stations));
  for (const auto& part : view.parts()) {
    rows_.emplace_back(part.position.size());
  }
  if (!scenario.probes.empty()) {
    rows_.emplace_back(scenario.probes.size());
  }
  spans_.assign(rows_.begin(), rows_.end());
  for (const auto& patch : network.grid().patches) {
    for (std::size_t i = 0; i < patch.rows; ++i) {
      for (std::size_t j = 0; j < patch.stations; ++j) {
        field_cells_.push_back(patch.row(i) + j);
      }
    }
  }
  for (const auto& body : network.grid().bodies) {
    for (std::size_t i = 0; i < body.cells; ++i) {
      field_cells_.push_back(body.first_cell + i);
    }
  }
  field_.resize(field_cells_.size());
  if (scenario.output.field_every <= 0.0) {
    reads_ = view.cells_read();
  }
}

void Recorder::gather(const marching::Moment& moment) {
  const auto& ledger = moment.ledger;
  const double scalars[] = {static_cast<double>(moment.step),
                            moment.electrical.asked,
                            moment.electrical.current,
                            moment.electrical.wire_voltage,
                            moment.electrical.supply_voltage,
                            moment.power,
                            ledger.made,
                            ledger.lost,
                            ledger.stored,
                            ledger.gap()};
  std::size_t k = 0;
  for (const double value : scalars) {
    rows_[k++][0] = value;
  }
  const std::size_t first_temperature = k;
  std::copy_n(moment.temperature.begin(), rows_[k].size(), rows_[k].begin());
  hottest_ = std::max(hottest_, *std::max_element(rows_[k].begin(), rows_[k].end()));
  view_.surfaces(moment, rows_[++k]);
  for (std::size_t p = 0; p < view_.parts().size(); ++p) {
    view_.part(p, moment.temperature, rows_[++k]);
  }
  if (!scenario_.probes.empty()) {
    view_.probes(moment, rows_[++k]);
  }
  for (std::size_t row = first_temperature; row < rows_.size(); ++row) {
    for (double& kelvin : rows_[row]) {
      kelvin -= heat::zero_celsius;
    }
  }
  if (ledger.made > 0.0) {
    worst_gap_ = std::max(worst_gap_, std::abs(ledger.gap()) / ledger.made);
  }
}

void Recorder::write_field(const marching::Moment& moment) {
  for (std::size_t c = 0; c < field_.size(); ++c) {
    field_[c] = moment.temperature[field_cells_[c]] - heat::zero_celsius;
  }
  writer_.append_field(moment.time, field_);
}

void Recorder::moment(const marching::Moment& moment) {
  const auto begin = std::chrono::steady_clock::now();
  gather(moment);
  writer_.append(moment.time, spans_);
  const double every = scenario_.output.field_every;
  if (moment.step_ends || (every > 0.0 && moment.time >= next_field_ * (1.0 - 1e-12))) {
    write_field(moment);
    while (every > 0.0 && next_field_ <= moment.time * (1.0 + 1e-12)) {
      next_field_ += every;
    }
  }
  time_spent_ += std::chrono::steady_clock::now() - begin;
}

}  // namespace ampstair::verbs
