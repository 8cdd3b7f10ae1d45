// SPDX-License-Identifier: MIT
#include "checks/judge.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>

#include "checks/amounts.hpp"
#include "checks/drive.hpp"
#include "checks/error_bars.hpp"
#include "checks/item_watch.hpp"
#include "checks/notes.hpp"
#include "checks/places.hpp"
#include "checks/scan.hpp"
#include "checks/step_watch.hpp"
#include "checks/validity.hpp"

namespace ampstair::post::checks {

namespace {

using watch::State;

/// The parts a record can answer for: name -> history on an axis.
class Parts {
 public:
  explicit Parts(const Histories& histories) {
    std::map<std::string, history::Series> by_name;
    for (auto& series : histories.series()) {
      if (!series.axis.empty()) {
        by_name.emplace(series.naming.name, series);
      }
    }
    if (const auto found = by_name.find("wood_char_depth"); found != by_name.end()) {
      wood_depths_ = found->second;
    }
    if (!histories.has("parts/name")) {
      return;
    }
    const auto names = histories.texts("parts", "name");
    const auto series = histories.texts("parts", "series");
    for (std::size_t i = 0; i < names.size(); ++i) {
      if (const auto found = by_name.find(series.at(i)); found != by_name.end()) {
        parts_.emplace(names[i], found->second);
        order_.push_back(names[i]);
      }
    }
  }

  [[nodiscard]] const history::Series* find(const std::string& part) const {
    const auto found = parts_.find(part);
    return found == parts_.end() ? nullptr : &found->second;
  }
  /// The history of a part's char depths; null where the record holds none.
  [[nodiscard]] const history::Series* depths_of(const std::string& part) const {
    return part == "wood" && wood_depths_ ? &*wood_depths_ : nullptr;
  }
  [[nodiscard]] const std::vector<std::string>& names() const { return order_; }
  /// All parts that are read from a history.
  [[nodiscard]] std::vector<std::string> of_series(const std::string& series) const {
    std::vector<std::string> parts;
    for (const auto& [name, read] : parts_) {
      if (read.naming.name == series) {
        parts.push_back(name);
      }
    }
    return parts;
  }

 private:
  std::map<std::string, history::Series> parts_;
  std::optional<history::Series> wood_depths_;
  std::vector<std::string> order_;
};

/// One history with everybody who wants its rows.
struct Pass {
  history::Series series;
  std::vector<double> positions;  ///< m
  std::vector<RowTaker*> takers;
  std::optional<double> until;  ///< s, last moment whose rows are to be used
};

/// The passes by the name of their history.
class Passes {
 public:
  explicit Passes(const Histories& histories) : histories_(histories) {}

  void add(const history::Series& series, std::optional<double> until, RowTaker& taker) {
    auto [found, is_new] = passes_.try_emplace(series.naming.name);
    if (is_new) {
      found->second.series = series;
      found->second.until = until;
      found->second.positions = histories_.axis(series.axis);
    }
    found->second.takers.push_back(&taker);
  }
  void run(const std::vector<double>& times) const {
    for (const auto& [name, pass] : passes_) {
      scan(histories_, pass.series, times, pass.takers,
           pass.until.value_or(std::numeric_limits<double>::infinity()));
    }
  }
  [[nodiscard]] const std::vector<double>& positions(const history::Series& series) const {
    return passes_.at(series.naming.name).positions;
  }

 private:
  const Histories& histories_;
  std::map<std::string, Pass> passes_;
};

Heading heading_of(const Histories& histories, const Drive& drive, const ErrorBars& bars) {
  Heading heading;
  heading.title = histories.attribute("title");
  heading.arrangement = histories.attribute("arrangement");
  heading.sheet_name = histories.attribute("sheet_name");
  heading.program = histories.attribute("program");
  heading.commit = histories.attribute("commit");
  heading.created = histories.attribute("created");
  heading.beyond = histories.beyond();
  heading.finished = histories.finished();
  heading.ends = drive.times().empty() ? 0.0 : drive.times().back();
  heading.planned = drive.steps().empty() ? heading.ends : drive.steps().back().end;
  heading.time_error = bars.of_time();
  heading.grid_error = bars.greatest_of_grid();
  return heading;
}

std::optional<Ledger> ledger_of(const Histories& histories) {
  for (const char* name : {"heat_made", "heat_lost", "heat_stored", "ledger_gap"}) {
    if (!histories.has(name)) {
      return std::nullopt;
    }
  }
  const auto made = histories.scalar("heat_made");
  const auto gap = histories.scalar("ledger_gap");
  if (made.empty()) {
    return std::nullopt;
  }
  Ledger ledger{made.back(), histories.scalar("heat_lost").back(),
                histories.scalar("heat_stored").back(), gap.back(), 0.0};
  for (std::size_t row = 0; row < made.size(); ++row) {
    if (made[row] > 0.0) {
      ledger.worst_gap = std::max(ledger.worst_gap, std::abs(gap[row]) / made[row]);
    }
  }
  return ledger;
}

ItemFinding not_recorded(const watch::Item& item, const Parts& parts) {
  ItemFinding finding;
  finding.item = item;
  finding.remark = fmt::format("the record holds no part '{}' (it holds: {})", item.part,
                               fmt::join(parts.names(), ", "));
  return finding;
}

/// A record that stops early can show a crossing but never the lack of one.
void mind_the_end(const Heading& heading, ItemFinding& finding) {
  if (heading.finished || finding.state == State::crossed || !finding.hottest) {
    return;
  }
  const std::string so_far =
      fmt::format("the record is unfinished and ends at {} of {}; {} until then",
                  minute_text(heading.ends), minute_text(heading.planned), name_of(finding.state));
  finding.remark = finding.state == State::cannot_say || finding.remark.empty()
                       ? so_far
                       : so_far + ": " + finding.remark;
  finding.state = State::cannot_say;
  finding.char_depth.reset();
}

State worst(const std::vector<ItemFinding>& items) {
  const auto any = [&](State state) {
    return std::any_of(items.begin(), items.end(),
                       [state](const ItemFinding& finding) { return finding.state == state; });
  };
  if (any(State::crossed)) {
    return State::crossed;
  }
  if (items.empty() || any(State::cannot_say)) {
    return State::cannot_say;
  }
  return any(State::near) ? State::near : State::clear;
}

/// Everything judge() gathers in its one pass.
class Judgement {
 public:
  Judgement(const Histories& histories, const std::vector<watch::Item>& items)
      : histories_(histories),
        drive_(histories),
        places_(histories),
        bars_(histories),
        parts_(histories),
        flags_(stored_flags(histories, places_)),
        passes_(histories) {
    for (const watch::Item& item : items) {
      watches_.push_back({item, parts_.find(item.part), watch_for(item)});
      if (watches_.back().series != nullptr) {
        passes_.add(*watches_.back().series, until(*watches_.back().series),
                    *watches_.back().watch);
        add_char_depths(*watches_.back().watch, item.part);
      }
    }
    for (const char* part : {"conductor", "surface", "wood", "ceramic"}) {
      if (const auto* series = parts_.find(part); series != nullptr) {
        by_step_.push_back({series, std::make_unique<StepWatch>(part, drive_)});
        passes_.add(*series, until(*series), *by_step_.back().watch);
      }
    }
    passes_.run(drive_.times());
  }

  [[nodiscard]] Findings findings() const {
    Findings findings;
    findings.heading = heading_of(histories_, drive_, bars_);
    findings.steps = drive_findings(histories_, drive_);
    findings.ledger = ledger_of(histories_);
    add_parts(findings);
    for (const Watched& watched : watches_) {
      findings.items.push_back(watched.series == nullptr
                                   ? not_recorded(watched.item, parts_)
                                   : watched.watch->finding(ground(*watched.series)));
      if (watched.series != nullptr) {
        const auto parts = parts_.of_series(watched.series->naming.name);
        mind_validity(held_until(flags_, parts), flags_, findings.items.back());
      }
      mind_the_end(findings.heading, findings.items.back());
    }
    findings.validity = flags_;
    findings.overall = worst(findings.items);
    findings.notes = notes_on(findings, histories_);
    return findings;
  }

 private:
  /// Depths of char stand beside the temperatures of a part: wood_char_depth.
  void add_char_depths(ItemWatch& watch, const std::string& part) {
    RowTaker* depths = watch.char_depths();
    if (const auto* series = parts_.depths_of(part); depths != nullptr && series != nullptr) {
      passes_.add(*series, until(*parts_.find(part)), *depths);
    }
  }

  struct Watched {
    watch::Item item;
    const history::Series* series = nullptr;
    std::unique_ptr<ItemWatch> watch;
  };
  struct ByStep {
    const history::Series* series = nullptr;
    std::unique_ptr<StepWatch> watch;
  };

  [[nodiscard]] std::optional<double> until(const history::Series& series) const {
    return usable_until(flags_, parts_.of_series(series.naming.name));
  }
  [[nodiscard]] Ground ground(const history::Series& series) const {
    return {places_, drive_, bars_, series.naming.name, passes_.positions(series)};
  }
  void add_parts(Findings& findings) const {
    for (const ByStep& part : by_step_) {
      for (std::size_t step = 0; step < findings.steps.size(); ++step) {
        if (auto found = part.watch->in_step(step, ground(*part.series))) {
          findings.steps[step].parts.push_back(std::move(*found));
        }
      }
      if (part.watch->part() != "conductor") {
        continue;
      }
      if (auto greatest = part.watch->over_all(ground(*part.series))) {
        findings.hottest_conductor = std::move(greatest->reading);
        if (greatest->step) {
          findings.hottest_step = *greatest->step + 1;
        }
      }
    }
  }

  const Histories& histories_;
  Drive drive_;
  Places places_;
  ErrorBars bars_;
  Parts parts_;
  std::vector<ValidityFlag> flags_;
  Passes passes_;
  std::vector<Watched> watches_;
  std::vector<ByStep> by_step_;
};

}  // namespace

Findings judge(const Histories& histories, const std::vector<watch::Item>& items) {
  return Judgement(histories, items).findings();
}

diagnostics::ExitCode exit_code(const Findings& findings) {
  switch (findings.overall) {
    case State::crossed:
      return diagnostics::ExitCode::crossed;
    case State::clear:
      return diagnostics::ExitCode::clear;
    case State::near:
    case State::cannot_say:
      break;
  }
  return diagnostics::ExitCode::undecided;
}

}  // namespace ampstair::post::checks
