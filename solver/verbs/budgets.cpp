// SPDX-License-Identifier: MIT
#include "verbs/budgets.hpp"

#include <algorithm>

#include "heat/constants.hpp"
#include "verbs/column.hpp"

namespace ampstair::verbs {

namespace {

using marching::BodyBudget;
using marching::SliceBudget;

std::size_t hottest_of(const std::vector<double>& kelvins) {
  return static_cast<std::size_t>(std::max_element(kelvins.begin(), kelvins.end()) -
                                  kelvins.begin());
}

struct SliceFlow {
  const char* name;
  const char* long_name;
  double SliceBudget::*flow;
};
constexpr SliceFlow slice_flows[] = {
    {"made", "comes in: made by the current, joints included", &SliceBudget::made},
    {"breakdown", "comes in: made by a covering that breaks down", &SliceBudget::breakdown},
    {"wire_from_start", "comes in along conductor and covering from the side of the run's start",
     &SliceBudget::wire_from_start},
    {"wire_from_end", "comes in along conductor and covering from the side of the run's end",
     &SliceBudget::wire_from_end},
    {"around_from_start", "comes in along what lies round the wire, from the side of the start",
     &SliceBudget::around_from_start},
    {"around_from_end", "comes in along what lies round the wire, from the side of the end",
     &SliceBudget::around_from_end},
    {"stored_in_wire", "stays: warms conductor and covering", &SliceBudget::stored_in_wire},
    {"stored_around", "stays: warms what lies round the wire", &SliceBudget::stored_around},
    {"convected", "goes: given off by the surface to the air", &SliceBudget::convected},
    {"radiated", "goes: given off by the surface to the walls around", &SliceBudget::radiated},
    {"held", "goes: to what is held at a temperature, behind a fill or a held end",
     &SliceBudget::held},
    {"into_body", "goes: into what stands beside the wire", &SliceBudget::into_body},
    {"into_around", "from the wire into what lies round it; in no sum", &SliceBudget::into_around}};

struct BodyFlow {
  const char* name;
  const char* long_name;
  double BodyBudget::*flow;
};
constexpr BodyFlow body_flows[] = {
    {"made", "comes in: made by the current in contact and lead", &BodyBudget::made},
    {"comes_in", "comes in: from the wire and from the part before", &BodyBudget::comes_in},
    {"passed_on", "goes: to the part behind", &BodyBudget::passed_on},
    {"stored", "stays: warms the part", &BodyBudget::stored},
    {"convected", "goes: given off to the air", &BodyBudget::convected},
    {"radiated", "goes: given off to the walls around", &BodyBudget::radiated},
    {"held", "goes: to what is held at a temperature", &BodyBudget::held}};

/// Columns that tell of which step and moment a row is.
template <class Rows>
void add_moment(const Rows& rows, history::Table& table) {
  table.columns.push_back({{"step", "row of the table steps, which ends here", "1"},
                           column(rows, [](const auto& r) { return r.step; })});
  table.columns.push_back({{"time", "time since the start of the march", "s"},
                           column(rows, [](const auto& r) { return r.time; })});
}

template <class Rows, class Flows>
void add_flows(const Rows& rows, const Flows& flows, const char* units, history::Table& table) {
  for (const auto& flow : flows) {
    table.columns.push_back({{flow.name, flow.long_name, units},
                             column(rows, [&](const auto& r) { return r.budget.*flow.flow; })});
  }
  table.columns.push_back({{"gap", "what comes in less what stays and goes", units},
                           column(rows, [](const auto& r) { return r.budget.gap(); })});
}

}  // namespace

Budgets::Budgets(const scenario::Scenario& scenario, marching::HeatNetwork& network,
                 const marching::View& view)
    : view_(view), budget_(network, scenario) {
  const auto& parts = view.parts();
  for (std::size_t p = 0; p < parts.size(); ++p) {
    const auto watches = [&](const watch::Item& item) { return item.part == parts[p].name; };
    if (std::any_of(scenario.watch.begin(), scenario.watch.end(), watches)) {
      watched_.push_back(p);
    }
  }
  for (const auto& probe : scenario.probes) {
    fixed_.push_back({"probe", probe.name, budget_.station_at(probe.position)});
  }
  for (const auto& piece : scenario.run) {
    if (piece.length > 0.0) {
      fixed_.push_back({"piece", piece.name, budget_.station_at(piece.begin + 0.5 * piece.length)});
    }
  }
}

std::vector<Budgets::Place> Budgets::hottest_places(const marching::Moment& moment) const {
  std::vector<Place> places;
  std::vector<double> kelvins(
      moment.temperature.begin(),
      moment.temperature.begin() + static_cast<std::ptrdiff_t>(budget_.stations()));
  places.push_back({"hottest", "conductor", hottest_of(kelvins)});
  view_.surfaces(moment.temperature, kelvins);
  places.push_back({"hottest", "surface", hottest_of(kelvins)});
  for (const std::size_t p : watched_) {
    const auto& part = view_.parts()[p];
    kelvins.resize(part.position.size());
    view_.part(p, moment.temperature, kelvins);
    places.push_back(
        {"hottest", part.name, budget_.station_at(part.position[hottest_of(kelvins)])});
  }
  return places;
}

void Budgets::take(const marching::Moment& moment) {
  budget_.take(moment.temperature, moment.time);
  auto places = hottest_places(moment);
  places.insert(places.end(), fixed_.begin(), fixed_.end());
  const auto step = static_cast<std::int64_t>(moment.step);
  for (auto& place : places) {
    auto budget = budget_.slice(place.station);
    slices_.push_back({step, moment.time, std::move(place), std::move(budget)});
  }
  for (auto& budget : budget_.bodies()) {
    bodies_.push_back({step, moment.time, {}, std::move(budget)});
  }
}

history::Table Budgets::slices_table() const {
  history::Table table{
      "heat_budget", "where the heat of a slice of the run comes from and goes, as steps end", {}};
  add_moment(slices_, table);
  const auto add = [&](const char* name, const char* long_name, const char* units, auto values) {
    table.columns.push_back({{name, long_name, units}, std::move(values)});
  };
  add("kind", "hottest (of a part, then), probe, or piece (its middle)", "",
      column(slices_, [](const Slice& s) { return s.place.kind; }));
  add("place", "part, probe or piece", "",
      column(slices_, [](const Slice& s) { return s.place.name; }));
  add("position", "middle of the slice, from the start of the run", "m",
      column(slices_, [](const Slice& s) { return s.budget.position; }));
  add("width", "of the slice along the run", "m",
      column(slices_, [](const Slice& s) { return s.budget.width; }));
  add("conductor", "temperature of the conductor there", "degC",
      column(slices_, [](const Slice& s) { return s.budget.conductor - heat::zero_celsius; }));
  add("around", "what lies round the wire there, from inside out", "",
      column(slices_, [](const Slice& s) { return s.budget.around; }));
  add("body", "what stands beside it there", "",
      column(slices_, [](const Slice& s) { return s.budget.body; }));
  add_flows(slices_, slice_flows, "W m-1", table);
  return table;
}

history::Table Budgets::bodies_table() const {
  history::Table table{
      "body_budget", "where the heat of what stands beside the run comes from and goes", {}};
  add_moment(bodies_, table);
  table.columns.push_back({{"body", "what stands beside the run", ""},
                           column(bodies_, [](const Body& b) { return b.budget.body; })});
  table.columns.push_back({{"part", "which part of it", ""},
                           column(bodies_, [](const Body& b) { return b.budget.part; })});
  table.columns.push_back({{"position", "distance from the start of the run", "m"},
                           column(bodies_, [](const Body& b) { return b.budget.position; })});
  add_flows(bodies_, body_flows, "W", table);
  return table;
}

std::vector<history::Table> Budgets::tables() const {
  return {slices_table(), bodies_table()};
}

}  // namespace ampstair::verbs
