// SPDX-License-Identifier: MIT
#include "verbs/recorder.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "heat/ambient.hpp"
#include "heat/constants.hpp"

namespace ampstair::verbs {

namespace {

constexpr std::size_t scalars = 14;
constexpr std::size_t wood_histories = 3;  // after the temperatures and their bars

}  // namespace

Recorder::Recorder(const scenario::Scenario& scenario, const marching::HeatNetwork& network,
                   Temperatures& temperatures, const marching::WoodContacts& contacts,
                   Budgets& budgets, GridError* grid_error, history::RecordWriter& writer,
                   KeepGoing keep_going)
    : scenario_(scenario),
      network_(network),
      temperatures_(temperatures),
      contacts_(contacts),
      budgets_(budgets),
      conversions_(scenario, network),
      grid_error_(grid_error),
      writer_(writer),
      keep_going_(std::move(keep_going)),
      next_field_(scenario.output.field_every) {
  rows_.assign(scalars, std::vector<double>(1));
  for (int times = grid_error != nullptr ? 2 : 1; times > 0; --times) {  // bars: the same shapes
    for (const auto& places : temperatures_.places()) {
      rows_.emplace_back(places.size());
    }
  }
  if (!contacts.positions().empty()) {
    rows_.resize(rows_.size() + wood_histories, std::vector<double>(contacts.positions().size()));
  }
  rows_.resize(rows_.size() + conversions_.parts().size(),
               std::vector<double>(conversions_.stations()));
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
  for (const auto& bay : network.grid().bays) {
    field_cells_.push_back(bay.air_cell);
    field_cells_.push_back(bay.walls_cell);
  }
  field_.resize(field_cells_.size());
  if (scenario.output.field_every <= 0.0) {
    reads_ = temperatures.reads();
  }
}

void Recorder::gather(const marching::Moment& moment) {
  const auto& ledger = moment.ledger;
  // A moment at which the air changes still belongs to the air before.
  const double time = std::nextafter(moment.time, 0.0);
  const auto around = heat::prevailing_from(scenario_.surroundings.front(), time).at(time);
  const double numbers[scalars] = {static_cast<double>(moment.step),
                                   moment.electrical.asked,
                                   moment.electrical.current,
                                   moment.electrical.wire_voltage,
                                   moment.electrical.supply_voltage,
                                   moment.power,
                                   moment.electrical.loop_resistance,
                                   ledger.made,
                                   ledger.lost,
                                   ledger.stored,
                                   ledger.gap(),
                                   around.air - heat::zero_celsius,
                                   around.walls - heat::zero_celsius,
                                   around.speed};
  for (std::size_t k = 0; k < scalars; ++k) {
    rows_[k][0] = numbers[k];
  }
  const double loop = moment.electrical.loop_resistance;
  cold_loop_ = cold_loop_ > 0.0 ? cold_loop_ : loop;
  highest_loop_ = std::fmax(highest_loop_, loop);
  const auto temperatures = std::span(rows_).subspan(scalars, temperatures_.places().size());
  temperatures_.at(moment, temperatures);
  const auto& conductor = temperatures.front();
  hottest_ = std::max(hottest_, *std::max_element(conductor.begin(), conductor.end()));
  if (grid_error_ != nullptr && moment.regular) {
    add_bars(moment);
  }
  for (auto& of_history : temperatures) {
    for (double& kelvin : of_history) {
      kelvin -= heat::zero_celsius;
    }
  }
  const std::size_t layers = conversions_.parts().size();
  conversions_.at(moment.converted, std::span(rows_).last(layers));
  if (!contacts_.positions().empty()) {
    auto wood = rows_.end() - static_cast<std::ptrdiff_t>(wood_histories + layers);
    for (const auto* history : {&contacts_.char_depth(), &contacts_.above_long_caution(),
                                &contacts_.above_short_caution()}) {
      *wood++ = *history;
    }
  }
  if (ledger.made > 0.0) {
    worst_gap_ = std::max(worst_gap_, std::abs(ledger.gap()) / ledger.made);
  }
}

void Recorder::add_bars(const marching::Moment& moment) {
  const std::size_t histories = temperatures_.places().size();
  const auto bars = std::span(rows_).subspan(scalars + histories, histories);
  grid_error_->at(moment.time, std::span(rows_).subspan(scalars, histories), bars);
  for (Waiting& event : waiting_) {  // so far they have the bars of the regular row before them
    for (std::size_t h = 0; h < histories; ++h) {
      auto& of_event = event.rows[scalars + histories + h];
      for (std::size_t k = 0; k < of_event.size(); ++k) {
        of_event[k] = std::fmax(of_event[k], bars[h][k]);
      }
    }
  }
}

void Recorder::append(double time, const Rows& rows) {
  spans_.assign(rows.begin(), rows.end());
  writer_.append(time, spans_);
}

void Recorder::write_waiting() {
  for (const Waiting& event : waiting_) {
    append(event.time, event.rows);
  }
  waiting_.clear();
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
  if (grid_error_ != nullptr && !moment.regular) {
    waiting_.push_back({moment.time, rows_});
  } else {
    write_waiting();
    append(moment.time, rows_);
  }
  const double every = scenario_.output.field_every;
  if (moment.step_ends || (every > 0.0 && moment.time >= next_field_ * (1.0 - 1e-12))) {
    write_field(moment);
    while (every > 0.0 && next_field_ <= moment.time * (1.0 + 1e-12)) {
      next_field_ += every;
    }
  }
  if (moment.step_ends) {
    budgets_.take(moment);
  }
  time_spent_ += std::chrono::steady_clock::now() - begin;
}

}  // namespace ampstair::verbs
