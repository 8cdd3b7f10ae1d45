// SPDX-License-Identifier: MIT
#include "marching/march.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <vector>

#include "marching/event_search.hpp"
#include "marching/levels.hpp"
#include "marching/step_length.hpp"
#include "marching/validity.hpp"
#include "marching/wood_contacts.hpp"

namespace ampstair::marching {

namespace {

// Copper at a megampere warms by a kelvin in this time; no wire needs a shorter step.
constexpr double shortest_step = 1e-9;  // s

class March {
 public:
  March(const scenario::Scenario& scenario, HeatNetwork& network, Stepper& stepper,
        Observer& observer, Levels* levels, WoodContacts* contacts, Validity* validity)
      : scenario_(scenario),
        network_(network),
        observer_(observer),
        stepper_(stepper),
        search_(scenario, network, stepper_, levels),
        contacts_(contacts),
        validity_(validity),
        tolerance_(scenario.output.accuracy) {
    temperature_.assign(network.grid().cells, 0.0);
    converted_.assign(network.reactions().size(), 0.0);
    whole_.push_back({0, network.grid().cells});
    summary_.cells = network.grid().real_cells;
    network_.set_parted(false);
  }

  Summary run() {
    set_drive();
    begin_contacts();
    report_here(0.0, false, true);
    pass_outputs(0.0);
    double begin = 0.0;
    for (std::size_t s = 0; s < scenario_.staircase.size(); ++s) {
      step_ = s;
      step_begin_ = begin;
      if (!climb(begin, begin + scenario_.staircase[s].duration)) {
        break;
      }
      begin = time_;  // the end as planned, or earlier by a rule
    }
    summary_.end_time = time_;
    summary_.looks = search_.looks();
    return summary_;
  }

 private:
  /// What the supply is told from here on.
  void set_drive() {
    const auto& step = scenario_.staircase[step_];
    Drive drive{step.kind, step.level};
    for (const auto& leg : step.legs) {
      if (step_begin_ + leg.from <= time_) {
        drive = {step.kind, leg.level, leg.slope, step_begin_ + leg.from};
      }
    }
    network_.set_drive(drive);
  }

  void begin_contacts() {
    if (contacts_ != nullptr) {
      copy_state();
      contacts_->begin(time_, temperature_);
    }
  }

  void rejoin() {
    if (scenario_.staircase[step_].rejoined && network_.parted() &&
        hottest_conductor() < network_.melting_ends()) {
      network_.set_parted(false);
      search_.rejoined();
    }
  }

  [[nodiscard]] double hottest_conductor() const {
    double hottest = 0.0;
    for (std::size_t j = 0; j < network_.grid().stations(); ++j) {
      hottest = std::max(hottest, network_.temperature_of(j, stepper_.state()[j]));
    }
    return hottest;
  }

  /// One step of the staircase, cut where the surroundings change and where its level turns.
  bool climb(double begin, double end) {
    rejoin();
    step_over_ = false;
    std::vector<double> cuts;
    for (const auto& leg : scenario_.staircase[step_].legs) {
      if (begin + leg.from > begin && begin + leg.from < end) {
        cuts.push_back(begin + leg.from);
      }
    }
    for (const auto& around : scenario_.surroundings) {
      for (const auto& air : around.air) {
        cuts.push_back(air.from_time);
      }
      for (const auto& walls : around.walls) {
        cuts.push_back(walls.from_time);
      }
    }
    std::erase_if(cuts, [&](double cut) { return cut <= begin || cut >= end; });
    cuts.push_back(end);
    std::sort(cuts.begin(), cuts.end());
    cuts.erase(std::unique(cuts.begin(), cuts.end()), cuts.end());
    for (const double cut : cuts) {
      network_.set_surroundings(time_);
      set_drive();
      if (!phase(cut, cut == end)) {
        return false;
      }
      if (step_over_) {
        break;
      }
    }
    for (const auto& found : search_.end_step()) {
      observer_.event(found.event);
    }
    return true;
  }

  /// Marches to `end` under a drive and surroundings without a kink.
  bool phase(double end, bool step_ends) {
    for (const auto& found : search_.begin_phase(time_, step_)) {
      if (found.needs_row) {
        report_here(time_, false, false);
      }
      observer_.event(found.event);
    }
    if (validity_ != nullptr && !tell(validity_->begin_phase(stepper_, time_))) {
      return false;
    }
    StepLength wanted(stepper_.first_length(time_, tolerance_), time_);
    while (time_ < end && !step_over_) {
      const double rest = end - time_;
      double h = wanted.length();
      bool last = false;
      if (h >= rest * (1.0 - 1e-12)) {
        h = rest;
        last = true;
      } else if (h > 0.5 * rest) {
        h = 0.5 * rest;  // two even steps instead of a long and a short one
      }
      const double error = stepper_.attempt(time_, h) / tolerance_;
      if (!(error <= 1.0)) {
        ++summary_.rejected;
        wanted.reject(h, error);
        if (wanted.length() < shortest_step) {
          summary_.ending = Summary::Ending::step_too_short;
          return false;
        }
        continue;
      }
      summary_.error_estimate = std::max(summary_.error_estimate, error * tolerance_);
      if (!accept(h, last ? end : time_ + h, last && step_ends)) {
        return false;
      }
      if (search_.cut()) {  // a kink of the heat made: as after a jump
        wanted = StepLength(stepper_.first_length(time_, tolerance_), time_);
      } else {
        wanted.accept(h, error, time_);
      }
    }
    return true;
  }

  /// @return whether the march may go on
  bool tell(const std::vector<Flag>& flags) {
    for (const Flag& flag : flags) {
      observer_.flag(flag);
    }
    if (validity_->stops()) {
      summary_.ending = Summary::Ending::validity_ends;
    }
    return !validity_->stops();
  }

  /// Reports outputs and events inside the step, then moves to its end.
  bool accept(double h, double end, bool step_ends) {
    const auto& found = search_.look(time_, h);
    double reach = search_.reach();
    if (validity_ != nullptr) {
      validity_->look(stepper_, time_, h, reach);
      reach = validity_->stops_at();
    }
    const bool stops = validity_ != nullptr && validity_->stops();
    const bool cut = search_.cut() && !stops;
    const double stop = reach < 1.0 ? time_ + reach * h : end;
    for (const auto& one : found) {
      if (stops && one.theta > reach) {
        break;
      }
      report_outputs(std::min(one.event.time, stop), h);
      if (one.needs_row && one.event.time != row_time_) {
        report_inside(one.theta, std::min(one.event.time, stop), h, false);
      }
      observer_.event(one.event);
    }
    report_outputs(stop, h);
    follow_contacts(reach, h);
    stepper_.advance(reach);
    time_ = stop;
    ++summary_.steps;
    step_over_ = cut && search_.end().kind == Event::Kind::step_settled;
    step_ends = stops || step_over_ || (step_ends && stop == end);
    const bool regular = step_ends || due(stop);
    if (regular || cut) {
      report_here(stop, step_ends, regular);
      pass_outputs(stop);
    }
    if (validity_ != nullptr && !tell(validity_->found())) {
      return false;
    }
    if (cut) {
      meet(search_.end());
    }
    if (!observer_.advanced(time_)) {
      summary_.ending = Summary::Ending::stopped_by_observer;
      return false;
    }
    return true;
  }

  /// What the step was cut for; its row is written.
  void meet(Event event) {
    observer_.event(event);
    if (event.kind == Event::Kind::covering_gone) {
      summary_.covering_gone = summary_.covering_gone ? summary_.covering_gone : event;
      stepper_.lose_covering(search_.going());
      report_here(time_, false, false);
      tell_bare(event);
    }
    if (event.kind == Event::Kind::conductor_melts) {
      summary_.melts = summary_.melts ? summary_.melts : event;
      network_.let_conductor_melt();
      if (network_.melting_ends() > network_.melting_begins()) {
        return;
      }
      event.kind = Event::Kind::conductor_parts;  // no heat of fusion to take up
      observer_.event(event);
    }
    if (event.kind == Event::Kind::conductor_parts) {
      summary_.parts = summary_.parts ? summary_.parts : event;
      network_.set_parted(true);
      search_.parted();
      report_here(time_, false, false);
    }
  }

  /// Once for every piece: what is read off its covering means nothing any more.
  void tell_bare(const Event& event) {
    for (const std::size_t site : search_.going()) {
      const std::size_t station = network_.covering().sites()[site].face.station;
      const std::size_t piece = network_.grid().station_piece[station];
      if (!bare_pieces_.insert(piece).second) {
        continue;
      }
      Flag flag;
      flag.code = "V330";
      flag.text = "covering of '" + scenario_.run[piece].name +
                  "' gone, first here: what its layers show from here on, and instruments put to "
                  "them, is the bare conductor";
      flag.part = "covering";
      flag.position = network_.grid().station_centre[station];
      flag.time = time_;
      flag.current = event.current;
      flag.value = event.temperature;
      flag.limit = scenario_.wire.covering_gone->above.value_or(event.temperature);
      flag.unit = "K";
      observer_.flag(flag);
    }
  }

  // ---- output inside a step --------------------------------------------------------------------
  [[nodiscard]] double output_time(std::size_t k) const {
    return scenario_.output.every * static_cast<double>(k);
  }
  [[nodiscard]] bool due(double time) const {
    return output_time(next_output_) <= time * (1.0 + 1e-12);
  }

  void pass_outputs(double time) {
    while (due(time)) {
      ++next_output_;
    }
  }

  /// All that is due before `stop`, inside the step of length h.
  void report_outputs(double stop, double h) {
    while (output_time(next_output_) < stop * (1.0 - 1e-12)) {
      const double t = output_time(next_output_);
      report_inside((t - time_) / h, t, h, true);
      pass_outputs(t);
    }
  }

  void follow_contacts(double theta, double h) {
    if (contacts_ != nullptr) {
      contacts_->follow(stepper_, time_, h, theta);
    }
  }

  void report_inside(double theta, double time, double h, bool regular) {
    follow_contacts(theta, h);
    stepper_.temperatures_at(theta, observer_.reads().empty() ? whole_ : observer_.reads(),
                             temperature_);
    stepper_.converted_at(theta, converted_);
    report(time, false, regular, stepper_.ledger_at(theta));
  }

  /// The state that the last step has come to.
  void report_here(double time, bool step_ends, bool regular) {
    copy_state();
    for (std::size_t k = 0; k < converted_.size(); ++k) {
      converted_[k] = network_.reactions().converted(k);
    }
    report(time, step_ends, regular, stepper_.ledger());
  }

  void copy_state() {
    std::copy(stepper_.state().begin(), stepper_.state().end(), temperature_.begin());
    network_.to_temperatures(0, temperature_.size(), temperature_);
  }

  void report(double time, bool step_ends, bool regular, const Ledger& ledger) {
    Moment moment;
    moment.time = time;
    moment.step = step_;
    moment.step_ends = step_ends;
    moment.regular = regular;
    moment.temperature = temperature_;
    moment.converted = converted_;
    moment.electrical = network_.electrical(temperature_, time);
    moment.power = moment.electrical.current * moment.electrical.wire_voltage;
    moment.ledger = ledger;
    observer_.moment(moment);
    row_time_ = time;
  }

  const scenario::Scenario& scenario_;
  HeatNetwork& network_;
  Observer& observer_;
  Stepper& stepper_;
  EventSearch search_;
  WoodContacts* contacts_;
  Validity* validity_;
  double tolerance_;  // K, for the embedded error of one step

  double time_ = 0.0;
  std::size_t step_ = 0;
  double step_begin_ = 0.0;  // s
  bool step_over_ = false;   // by its rule
  std::size_t next_output_ = 0;
  double row_time_ = 0.0;              // s, of the moment reported last
  Cells temperature_;                  // of a moment reported
  std::set<std::size_t> bare_pieces_;  // that have lost covering
  std::vector<double> converted_;
  std::vector<Stretch> whole_;  // all cells
  Summary summary_;
};

}  // namespace

Summary march(const scenario::Scenario& scenario, HeatNetwork& network, Observer& observer,
              Levels* levels, WoodContacts* contacts, Validity* validity) {
  Stepper stepper(network, scenario.start_temperature);
  return March(scenario, network, stepper, observer, levels, contacts, validity).run();
}

Summary march_again(const scenario::Scenario& scenario, HeatNetwork& network, Stepper& stepper,
                    Observer& observer) {
  network.set_surroundings(0.0);
  stepper.begin(scenario.start_temperature);
  return March(scenario, network, stepper, observer, nullptr, nullptr, nullptr).run();
}

}  // namespace ampstair::marching
