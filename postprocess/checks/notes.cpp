// SPDX-License-Identifier: MIT
#include "checks/notes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "checks/amounts.hpp"
#include "checks/places.hpp"
#include "checks/validity.hpp"

namespace ampstair::post::checks {

namespace {

bool has_band(const ItemFinding& finding) {
  const auto& item = finding.item;
  return item.low || item.high || item.energy_low || item.energy_high;
}

std::string note_on_bands(const Findings& findings) {
  const auto with_band = std::count_if(findings.items.begin(), findings.items.end(), has_band);
  if (with_band == 0) {
    return findings.heading.grid_error ? "single run, no uncertainty given for its inputs"
                                       : "single run, no uncertainty given";
  }
  return fmt::format(
      "single run, no uncertainty given for its inputs; {} of {} watch items carry a band",
      with_band, findings.items.size());
}

/// What ± covers; nothing of a record from before the error in time was kept, or unfinished.
std::optional<std::string> note_on_bars(const Heading& heading) {
  if (!heading.time_error) {
    return std::nullopt;
  }
  if (!heading.grid_error) {
    return fmt::format(
        "error in time at most about {:.2g} K; the grid's error was not estimated (ampstair run "
        "--with-error estimates it)",
        *heading.time_error);
  }
  return fmt::format(
      "± covers the solution of the model's equations (time about {:.2g} K, grid at most about "
      "{:.2g} K), not its inputs and correlations",
      *heading.time_error, *heading.grid_error);
}

/// What became of a conductor that melted; nothing where it did not, or the record cannot tell.
std::optional<std::string> note_on_melting(const Histories& histories) {
  if (!histories.has("events/kind")) {
    return std::nullopt;
  }
  const auto kinds = histories.texts("events", "kind");
  const Places places(histories);
  const auto first = [&](const char* kind) -> std::optional<std::string> {
    const auto found = std::find(kinds.begin(), kinds.end(), kind);
    if (found == kinds.end()) {
      return std::nullopt;
    }
    const auto row = static_cast<std::size_t>(found - kinds.begin());
    return fmt::format("at {}, at {}, with {} A",
                       minute_text(histories.numbers("events", "time").at(row)),
                       spot_text(places.spot(histories.numbers("events", "position").at(row))),
                       figures(histories.numbers("events", "current").at(row), 1));
  };
  const auto melts = first("conductor_melts");
  if (!melts) {
    return std::nullopt;
  }
  const auto parts = first("conductor_parts");
  return fmt::format(
      "the conductor begins to melt {}{}; arc, droplets and the resistance of molten metal are not "
      "modelled",
      *melts,
      parts ? fmt::format(", and parts {}: from then on it carries no current unless a step says "
                          "that it is rejoined",
                          *parts)
            : std::string());
}

bool is_buried(const Histories& histories) {
  if (!histories.has("pieces/kind")) {
    return false;
  }
  const auto kinds = histories.texts("pieces", "kind");
  return std::any_of(kinds.begin(), kinds.end(),
                     [](const std::string& kind) { return kind == "filled" || kind == "bay"; });
}

bool any_of_kind(const Findings& findings, watch::Item::Kind kind) {
  return std::any_of(findings.items.begin(), findings.items.end(),
                     [kind](const ItemFinding& finding) { return finding.item.kind == kind; });
}

}  // namespace

std::vector<std::string> notes_on(const Findings& findings, const Histories& histories) {
  std::vector<std::string> notes{note_on_bands(findings)};
  if (auto note = note_on_bars(findings.heading)) {
    notes.push_back(std::move(*note));
  }
  if (findings.items.empty()) {
    notes.emplace_back("no watch items: nothing can be said about limits");
  }
  if (!findings.heading.finished) {
    notes.push_back(fmt::format("the record is unfinished: it ends at {} of {}",
                                minute_text(findings.heading.ends),
                                minute_text(findings.heading.planned)));
  }
  if (auto note = note_on_melting(histories)) {
    notes.push_back(std::move(*note));
  }
  if (!findings.heading.beyond.empty()) {
    notes.push_back("the run sheet had the march go on past its own stops: " +
                    findings.heading.beyond);
  }
  for (const ValidityFlag& flag : findings.validity) {
    notes.push_back(flag_text(flag));
  }
  if (any_of_kind(findings, watch::Item::Kind::dose)) {
    notes.emplace_back(
        "equivalent hours vary many-fold with the activation energy and should not be used beyond "
        "the temperatures its tests covered");
  }
  if (is_buried(histories)) {
    notes.emplace_back(
        "the run has enclosed pieces: codes may bar this wiring in hollow spaces with insulation "
        "that envelops the conductors (in the US, NEC 394.12); check the code where the building "
        "stands");
  }
  return notes;
}

}  // namespace ampstair::post::checks
