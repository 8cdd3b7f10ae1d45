// SPDX-License-Identifier: MIT
#include "checks/item_watch.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>

#include "checks/amounts.hpp"
#include "watch/tracker.hpp"

namespace ampstair::post::checks {

namespace {

using watch::State;

/// The place where `moment(tracker)` comes first; of several, the hottest.
template <class Tracker, class Moment>
std::optional<std::size_t> earliest(const std::vector<Tracker>& trackers, Moment moment) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < trackers.size(); ++i) {
    const std::optional<double> here = moment(trackers[i]);
    if (!here) {
      continue;
    }
    const std::optional<double> there = found ? moment(trackers[*found]) : std::nullopt;
    const bool hotter = found && trackers[i].peak().value() > trackers[*found].peak().value();
    if (!there || *here < *there || (*here == *there && hotter)) {
      found = i;
    }
  }
  return found;
}

template <class Tracker>
std::optional<Reading> hottest(const std::vector<Tracker>& trackers, const Ground& ground) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < trackers.size(); ++i) {
    const auto& peak = trackers[i].peak();
    if (peak.seen() && (!found || peak.value() > trackers[*found].peak().value())) {
      found = i;
    }
  }
  if (!found) {
    return std::nullopt;
  }
  const auto& peak = trackers[*found].peak();
  return ground.reading(peak.value(), peak.time(), *found);
}

Crossing crossing(double time, std::optional<double> rose, std::size_t place,
                  const Ground& ground) {
  const auto step = ground.drive.step_at(time);
  return {time,
          rose,
          ground.spot(place),
          ground.drive.current_at(time),
          step ? std::optional(*step + 1) : std::nullopt,
          rose ? ground.bars.of_passing(ground.history, *rose, place) : std::nullopt};
}

/// The first crossing of one level of all trackers; `level` gives a pointer, null where absent.
template <class Level>
std::optional<Crossing> first_crossing(const std::vector<watch::LimitTracker>& trackers,
                                       const Ground& ground, Level level) {
  const auto place = earliest(trackers, [&](const watch::LimitTracker& tracker) {
    const watch::Exceedance* exceedance = level(tracker);
    return exceedance == nullptr ? std::nullopt : exceedance->crossed();
  });
  if (!place) {
    return std::nullopt;
  }
  const watch::Exceedance* exceedance = level(trackers[*place]);
  return crossing(*exceedance->crossed(), exceedance->crossing_rose(), *place, ground);
}

template <class Level>
std::optional<Crossing> first_full(const std::vector<watch::DoseTracker>& trackers,
                                   const Ground& ground, Level level) {
  const auto place = earliest(trackers, [&](const watch::DoseTracker& tracker) {
    const watch::ArrheniusDose* dose = level(tracker);
    return dose == nullptr ? std::nullopt : dose->full_at();
  });
  if (!place) {
    return std::nullopt;
  }
  return crossing(*level(trackers[*place])->full_at(), std::nullopt, *place, ground);
}

template <class Held>
const Held* held(const std::optional<Held>& optional) {
  return optional ? &*optional : nullptr;
}

/// Near where any place is near; crossed where any is; cannot say where no place has a number.
template <class Tracker>
State worst(const std::vector<Tracker>& trackers) {
  State found = State::cannot_say;
  for (const Tracker& tracker : trackers) {
    const State state = tracker.state();
    if (state == State::crossed) {
      return state;
    }
    if (state != State::cannot_say && (found == State::cannot_say || state == State::near)) {
      found = state;
    }
  }
  return found;
}

constexpr const char* no_numbers = "the record holds no temperature of this part";

template <class Tracker>
class Trackers : public ItemWatch {
 public:
  explicit Trackers(watch::Item item) : item_(std::move(item)) {}

  void take(std::size_t /*row*/, double time, std::span<const double> temperatures) final {
    trackers_.resize(temperatures.size(), Tracker(item_));
    for (std::size_t i = 0; i < temperatures.size(); ++i) {
      trackers_[i].add(time, temperatures[i]);
    }
  }

 protected:
  [[nodiscard]] ItemFinding begin(const Ground& ground) const {
    ItemFinding finding;
    finding.item = item_;
    finding.state = worst(trackers_);
    finding.hottest = hottest(trackers_, ground);
    finding.remark = finding.state == State::cannot_say ? no_numbers : "";
    return finding;
  }
  [[nodiscard]] const watch::Item& item() const { return item_; }
  [[nodiscard]] const std::vector<Tracker>& trackers() const { return trackers_; }

 private:
  watch::Item item_;
  std::vector<Tracker> trackers_;
};

/// Longest stretch and last moment above the best limit, over all places.
void add_stretches(const std::vector<watch::LimitTracker>& trackers, const Ground& ground,
                   ItemFinding& finding) {
  for (std::size_t i = 0; i < trackers.size(); ++i) {
    const auto& best = trackers[i].best();
    if (!best.last_above()) {
      continue;
    }
    finding.last_above = std::max(finding.last_above.value_or(0.0), *best.last_above());
    if (!finding.longest || best.longest() > *finding.longest) {
      finding.longest = best.longest();
      finding.longest_at = ground.spot(i);
    }
  }
}

class LimitWatch final : public Trackers<watch::LimitTracker> {
 public:
  using Trackers::Trackers;

  ItemFinding finding(const Ground& ground) const override {
    auto finding = begin(ground);
    using T = watch::LimitTracker;
    finding.crossing =
        first_crossing(trackers(), ground, [](const T& tracker) { return &tracker.best(); });
    finding.with_low =
        first_crossing(trackers(), ground, [](const T& tracker) { return held(tracker.low()); });
    finding.with_high =
        first_crossing(trackers(), ground, [](const T& tracker) { return held(tracker.high()); });
    add_stretches(trackers(), ground, finding);
    if (finding.state == State::crossed && item().high && !finding.with_high) {
      finding.remark = "crossed; not with the limit's high end";
    }
    if (finding.state == State::near) {
      finding.remark = why_near(finding);
    }
    mind_the_bar(finding);
    return finding;
  }

 private:
  /// Nothing is clear of a limit that its bar of error reaches.
  void mind_the_bar(ItemFinding& finding) const {
    const auto error = finding.hottest ? finding.hottest->error() : std::nullopt;
    if (!error || std::abs(finding.hottest->temperature - item().limit) > *error) {
      return;
    }
    if (finding.state == State::clear) {
      finding.state = State::near;
    }
    finding.remark += finding.remark.empty() ? "" : "; ";
    finding.remark += "the limit lies within the bar of error of the hottest place";
  }

  [[nodiscard]] std::string why_near(const ItemFinding& finding) const {
    if (finding.with_low) {
      return fmt::format("the low end of the limit, {}, is crossed at {}",
                         temperature_text(*item().low), minute_text(finding.with_low->time));
    }
    if (finding.longest) {
      return fmt::format("exceeded, but never for {} without a break",
                         span_text(item().persistence));
    }
    return fmt::format("the hottest place comes within {:.0f} K of the limit", watch::near_margin);
  }
};

class DoseWatch final : public Trackers<watch::DoseTracker> {
 public:
  using Trackers::Trackers;

  ItemFinding finding(const Ground& ground) const override {
    auto finding = begin(ground);
    using T = watch::DoseTracker;
    finding.crossing =
        first_full(trackers(), ground, [](const T& tracker) { return &tracker.best(); });
    finding.with_low =
        first_full(trackers(), ground, [](const T& tracker) { return held(tracker.low()); });
    finding.with_high =
        first_full(trackers(), ground, [](const T& tracker) { return held(tracker.high()); });
    finding.dose = greatest(ground);
    if (finding.state == State::near) {
      finding.remark =
          finding.with_low || finding.with_high
              ? "the full dose is reached at an end of the energy's band"
              : fmt::format("the full dose would be reached {:.0f} K warmer", watch::near_margin);
    }
    return finding;
  }

 private:
  [[nodiscard]] std::optional<Dose> greatest(const Ground& ground) const {
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < trackers().size(); ++i) {
      const auto& here = trackers()[i];
      if (here.peak().seen() &&
          (!found || here.best().equivalent() > trackers()[*found].best().equivalent())) {
        found = i;
      }
    }
    if (!found) {
      return std::nullopt;
    }
    const auto& place = trackers()[*found];
    Dose dose{place.best().equivalent(), {}, {}, ground.spot(*found)};
    if (place.low()) {
      dose.low = place.low()->equivalent();
    }
    if (place.high()) {
      dose.high = place.high()->equivalent();
    }
    return dose;
  }
};

/// The farthest char line of every place, and when it first went deeper than a limit.
class CharDepths final : public RowTaker {
 public:
  explicit CharDepths(double limit) : limit_(limit) {}

  void take(std::size_t /*row*/, double time, std::span<const double> depths) override {
    for (std::size_t i = 0; i < depths.size(); ++i) {
      const double before = i < last_.size() ? last_[i] : 0.0;
      if (depths[i] > greatest_) {
        greatest_ = depths[i];
        deepest_ = i;
      }
      if (depths[i] > limit_ && before <= limit_) {
        const double part = (limit_ - before) / (depths[i] - before);
        const double when = last_.empty() ? time : std::lerp(last_time_, time, part);
        if (!passed_ || when < *passed_) {
          passed_ = when;
          passed_at_ = i;
        }
      }
    }
    last_.assign(depths.begin(), depths.end());
    last_time_ = time;
  }

  [[nodiscard]] bool seen() const { return !last_.empty(); }
  [[nodiscard]] double greatest() const { return greatest_; }  ///< m
  [[nodiscard]] std::size_t deepest() const { return deepest_; }
  [[nodiscard]] std::optional<double> passed() const { return passed_; }  ///< s
  [[nodiscard]] std::size_t passed_at() const { return passed_at_; }

 private:
  double limit_;  // m
  std::vector<double> last_;
  double last_time_ = 0.0;
  double greatest_ = 0.0;
  std::size_t deepest_ = 0, passed_at_ = 0;
  std::optional<double> passed_;
};

/// Char lies where the isotherm has been. Where the record holds no depth of this isotherm, an item
/// is clear with certainty, or it cannot be judged.
class CharWatch final : public Trackers<watch::LimitTracker> {
 public:
  explicit CharWatch(const watch::Item& item) : Trackers(item), depths_(item.depth) {}

  RowTaker* char_depths() override {
    constexpr double recorded = 573.15;  // K
    constexpr double same = 0.01;        // K
    return std::abs(item().isotherm - recorded) < same ? &depths_ : nullptr;
  }

  ItemFinding finding(const Ground& ground) const override {
    auto finding = begin(ground);
    if (!finding.hottest) {
      return finding;
    }
    if (depths_.seen()) {
      judge_depth(ground, finding);
      return finding;
    }
    const auto passed = first_crossing(
        trackers(), ground, [](const watch::LimitTracker& tracker) { return &tracker.best(); });
    if (!passed) {
      finding.state = State::clear;
      finding.char_depth = 0.0;
      return finding;
    }
    finding.state = State::cannot_say;
    finding.remark = fmt::format(
        "the {} passes {} at {}, {}; the record does not hold how deep that isotherm went",
        item().part, temperature_text(item().isotherm), minute_text(passed->time),
        spot_text(passed->spot));
    return finding;
  }

 private:
  void judge_depth(const Ground& ground, ItemFinding& finding) const {
    finding.char_depth = depths_.greatest();
    finding.state = depths_.passed()           ? State::crossed
                    : depths_.greatest() > 0.0 ? State::near
                                               : State::clear;
    if (depths_.passed()) {
      finding.crossing = crossing(*depths_.passed(), std::nullopt, depths_.passed_at(), ground);
    }
    if (depths_.greatest() > 0.0) {
      finding.remark = fmt::format("deepest at {}", spot_text(ground.spot(depths_.deepest())));
    }
  }

  CharDepths depths_;
};

}  // namespace

std::unique_ptr<ItemWatch> watch_for(const watch::Item& item) {
  switch (item.kind) {
    case watch::Item::Kind::dose:
      return std::make_unique<DoseWatch>(item);
    case watch::Item::Kind::char_depth:
      return std::make_unique<CharWatch>(item);
    case watch::Item::Kind::above:
      break;
  }
  return std::make_unique<LimitWatch>(item);
}

}  // namespace ampstair::post::checks
