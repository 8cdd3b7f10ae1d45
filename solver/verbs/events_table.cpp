// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstdint>

#include "heat/constants.hpp"
#include "verbs/recorder.hpp"

namespace ampstair::verbs {

namespace {

using marching::Event;

const char* kind_word(Event::Kind kind) {
  switch (kind) {
    case Event::Kind::rises_above:
      return "rises_above";
    case Event::Kind::falls_below:
      return "falls_below";
    case Event::Kind::ceiling_met:
      return "ceiling_met";
    case Event::Kind::ceiling_left:
      return "ceiling_left";
    case Event::Kind::covering_gone:
      return "covering_gone";
    case Event::Kind::conductor_melts:
      return "conductor_melts";
    case Event::Kind::conductor_parts:
      return "conductor_parts";
    case Event::Kind::step_settled:
      return "step_settled";
    case Event::Kind::settled_by_rate:
      return "settled_by_rate";
    case Event::Kind::settled_by_hour:
      break;
  }
  return "settled_by_hour";
}

const char* bound_word(Event::Bound bound) {
  switch (bound) {
    case Event::Bound::low:
      return "low";
    case Event::Bound::high:
      return "high";
    case Event::Bound::best:
      break;
  }
  return "best";
}

}  // namespace

history::Table Recorder::events_table() const {
  std::vector<double> time;
  std::vector<std::int64_t> step;
  std::vector<std::string> kind;
  std::vector<std::string> item;
  std::vector<std::string> bound;
  std::vector<std::string> part;
  std::vector<double> temperature;
  std::vector<double> position;
  std::vector<double> current;
  auto in_order = events_;
  std::stable_sort(in_order.begin(), in_order.end(),
                   [](const Event& a, const Event& b) { return a.time < b.time; });
  for (const Event& event : in_order) {
    const watch::Item* watched = event.item ? &scenario_.watch[*event.item] : nullptr;
    time.push_back(event.time);
    step.push_back(static_cast<std::int64_t>(event.step));
    kind.emplace_back(kind_word(event.kind));
    item.push_back(watched != nullptr ? watched->name : "");
    bound.emplace_back(watched != nullptr ? bound_word(event.bound) : "");
    part.push_back(watched != nullptr                         ? watched->part
                   : event.kind == Event::Kind::covering_gone ? "covering"
                                                              : "conductor");
    temperature.push_back(event.temperature - heat::zero_celsius);
    position.push_back(event.position);
    current.push_back(event.current);
  }
  return {"events",
          "what happened inside the time steps, in the order of time",
          {{{"time", "time since the start of the march", "s"}, time},
           {{"step", "row of the table steps", "1"}, step},
           {{"kind", "what happened", ""}, kind},
           {{"item", "watch item whose level was passed", ""}, item},
           {{"bound", "which level of the item: best, low or high", ""}, bound},
           {{"part", "part the temperature is of", ""}, part},
           {{"temperature", "hottest temperature of the part", "degC"}, temperature},
           {{"position", "where it is, from the start of the run", "m"}, position},
           {{"current", "current got", "A"}, current}}};
}

}  // namespace ampstair::verbs
