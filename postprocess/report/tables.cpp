// SPDX-License-Identifier: MIT
#include "report/tables.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "checks/amounts.hpp"
#include "checks/sentences.hpp"
#include "report/html.hpp"
#include "report/words.hpp"

namespace ampstair::post::report {

namespace {

using checks::figures;
using Align = Table::Align;

/// When the ends of the limit's or the energy's band are crossed.
std::string band_remark(const checks::ItemFinding& finding) {
  const auto& item = finding.item;
  const bool banded = item.low || item.high || item.energy_low || item.energy_high;
  if (!banded || (!finding.with_low && !finding.with_high)) {
    return {};
  }
  const auto end = [](const std::optional<checks::Crossing>& crossing) {
    return crossing ? "at minute " + crossing_minute(*crossing) : std::string("not crossed");
  };
  return fmt::format("low end of the band {}, high end {}", end(finding.with_low),
                     end(finding.with_high));
}

std::string crossing_remark(const checks::ItemFinding& finding) {
  std::vector<std::string> said;
  if (!finding.remark.empty()) {
    said.push_back(escaped(finding.remark));
  }
  if (const auto band = band_remark(finding); !band.empty()) {
    said.push_back(band);
  }
  if (finding.longest && finding.longest_at) {
    said.push_back(fmt::format("longest time above {} at {}", checks::span_text(*finding.longest),
                               place(*finding.longest_at)));
  }
  if (finding.dose) {
    said.push_back(
        fmt::format("ages like {} at {} ({} % of the full dose) at {}",
                    checks::span_text(finding.dose->equivalent),
                    both_temperatures(finding.item.reference_temperature),
                    figures(100.0 * finding.dose->equivalent / finding.item.reference_duration, 1),
                    place(finding.dose->spot)));
  }
  if (finding.char_depth) {
    said.push_back(fmt::format("char depth {:.2f} mm", *finding.char_depth * 1000.0));
  }
  if (finding.hottest) {
    said.push_back(fmt::format("hottest {} {} at {}, minute {}", escaped(finding.item.part),
                               both_readings(*finding.hottest), place(finding.hottest->spot),
                               minutes(finding.hottest->time)));
  }
  said.push_back(finding.item.from.empty() ? "limit: no source given"
                                           : "limit from: " + escaped(finding.item.from));
  return fmt::format("{}", fmt::join(said, "; "));
}

std::vector<std::string> crossing_cells(const checks::ItemFinding& finding) {
  std::vector<std::string> cells = {state_mark(finding.state), escaped(finding.item.name),
                                    escaped(finding.item.part),
                                    escaped(checks::limit_text(finding.item))};
  if (const auto& crossing = finding.crossing) {
    cells.insert(cells.end(),
                 {crossing_minute(*crossing), place(crossing->spot), amperes(crossing->current),
                  crossing->step ? fmt::format("{}", *crossing->step) : dash});
  } else {
    cells.insert(cells.end(), 4, dash);
  }
  return cells;
}

}  // namespace

std::string run_ledger(const Source& source) {
  const auto& histories = *source.histories;
  Table table("t1", "T1 Run ledger: the pieces in order along the wire",
              {{"#", Align::right},
               {"piece", Align::left},
               {"kind", Align::left},
               {"from", Align::right},
               {"to", Align::right}});
  if (histories.has("pieces")) {
    const auto name = histories.texts("pieces", "name");
    const auto kind = histories.texts("pieces", "kind");
    const auto begin = histories.numbers("pieces", "begin");
    const auto end = histories.numbers("pieces", "end");
    for (std::size_t i = 0; i < name.size(); ++i) {
      table.add({fmt::format("{}", i + 1), escaped(name[i]), escaped(kind[i]),
                 both_lengths(begin[i]), both_lengths(end[i])});
    }
  }
  return table.markup("Distances are measured along the wire from its first end.");
}

std::string first_crossings(const Source& source) {
  Table table("t3", "T3 First crossings of what is watched",
              {{"state", Align::left},
               {"item", Align::left},
               {"part", Align::left},
               {"limit", Align::left},
               {"minute", Align::right},
               {"place", Align::left},
               {"current", Align::right},
               {"step", Align::right}});
  for (const auto& item : source.findings.items) {
    table.add(crossing_cells(item));
    table.add_remark(crossing_remark(item));
  }
  if (table.empty()) {
    return "<p id=\"t3\">The run sheet watches nothing, so nothing can be said of limits.</p>\n";
  }
  return table.markup(fmt::format(
      "C ○ clear of the stated limit; N ◐ near: not crossed, but within {:.0f} K or at one end of "
      "a "
      "band; X ● crossed; ? ◇ cannot say. A limit is what the run sheet states, with where it came "
      "from; none is built in.",
      watch::near_margin));
}

std::string device(const Source& source) {
  if (!source.device) {
    return "<p id=\"t5\">No device given; nothing can be said about opening.</p>\n";
  }
  const auto& opening = source.opening;
  Table table("t5", "T5 Overcurrent device: what its stated limits require",
              {{"against", Align::left}, {"minute", Align::right}, {"finding", Align::left}});
  table.add({"earliest opening", opening.earliest ? minutes(*opening.earliest) : dash,
             checks::earliest_text(*source.device, opening)});
  table.add({"latest opening", opening.latest ? minutes(*opening.latest) : dash,
             checks::latest_text(opening)});
  for (const auto& item : source.findings.items) {
    if (item.crossing) {
      table.add({escaped(item.item.name), crossing_minute(*item.crossing),
                 checks::device_sentence(opening, *item.crossing)});
    }
  }
  return table.markup(escaped(checks::device_text(*source.device)) +
                      ". The model does not show whether this device met them, nor whether it "
                      "opened.");
}

std::string instruments(const Source& source) {
  Table table("t7", "T7 Real and would read, at the end of each step",
              {{"instrument", Align::left},
               {"place", Align::left},
               {"step", Align::right},
               {"real", Align::right},
               {"would read", Align::right},
               {"difference", Align::right},
               {"to be known", Align::left}});
  for (const auto& reading : source.readings) {
    const bool volts = reading.of == checks::InstrumentReading::Of::volts;
    const auto shown = [&](double value) {
      return !std::isfinite(value) ? std::string(dash)
             : volts               ? fmt::format("{:.3f} V", value)
                                   : both_temperatures(value);
    };
    table.add({escaped(reading.instrument), escaped(reading.place), fmt::format("{}", reading.step),
               shown(reading.real), shown(reading.shown),
               volts || !std::isfinite(reading.shown)
                   ? std::string(dash)
                   : checks::difference_figures(reading.shown - reading.real, 1) + " K",
               escaped(reading.remark)});
  }
  if (table.empty()) {
    return "<p id=\"t7\">The run sheet names no instruments.</p>\n";
  }
  return table.markup(
      "Real is the surface (or, under a layer, the place of the bead) that the instrument is put "
      "to, not the copper. A hand meets what skin at 33 °C and the surface take on between them; "
      "that is no measurement and no invitation to touch, burns are judged and pain is not, and a "
      "wire is taken as live unless its supply is told to stay at or below 50 V.");
}

std::string values_and_sources(const Source& source) {
  const auto& histories = *source.histories;
  Table table("t9", "T9 Values used and where they come from",
              {{"value", Align::left},
               {"is", Align::right},
               {"unit", Align::left},
               {"source", Align::left}});
  if (histories.has("values")) {
    const auto path = histories.texts("values", "path");
    const auto unit = histories.texts("values", "unit");
    const auto from = histories.texts("values", "source");
    const auto value = histories.numbers("values", "value");
    const auto by_default = histories.numbers("values", "by_default");
    for (std::size_t i = 0; i < path.size(); ++i) {
      table.add({escaped(path[i]), fmt::format("{:.6g}", value[i]), escaped(unit[i]),
                 (by_default[i] != 0.0 ? "<b>default, not measured:</b> " : "") +
                     (from[i].empty() ? std::string("no source given") : escaped(from[i]))});
    }
  }
  return table.markup(
      "What is marked as a default was not measured on this wire: give the value with its band in "
      "the run sheet where it matters.");
}

std::string validity(const Source& source) {
  Table table("t10", "T10 Validity flags",
              {{"code", Align::left},
               {"from minute", Align::right},
               {"means", Align::left},
               {"part", Align::left},
               {"what", Align::left},
               {"value", Align::right},
               {"limit", Align::right}});
  for (const auto& flag : source.findings.validity) {
    const char* means = flag.severity == "stop" ? "the march stops"
                        : flag.ends_results     ? "not to be used from then on"
                        : flag.severity == "beyond"
                            ? "beyond the model; told all the same, by the sheet's reason"
                            : "to be known";
    const std::string unit = flag.unit == "1" ? "" : flag.unit == "degC" ? " °C" : " " + flag.unit;
    table.add({escaped(flag.code), minutes(flag.time), means, escaped(flag.part),
               escaped(flag.text) + (flag.spot ? " at " + place(*flag.spot) : ""),
               figures(flag.value, 1) + escaped(unit), figures(flag.limit, 1) + escaped(unit)});
  }
  if (table.empty()) {
    return "<p id=\"t10\">T10 Validity flags: none in this record.</p>\n";
  }
  return table.markup("Curves of a part end where its results are not to be used.");
}

std::string energy_ledger(const Source& source) {
  Table table("t12", "T12 Energy ledger at the last row",
              {{"made in wire and joints", Align::right},
               {"given off", Align::right},
               {"stored", Align::right},
               {"does not add up by", Align::right},
               {"worst of all rows", Align::right}});
  if (const auto& ledger = source.findings.ledger) {
    const auto kilojoules = [](double joules) { return figures(joules / 1000.0, 2) + " kJ"; };
    table.add({kilojoules(ledger->made), kilojoules(ledger->lost), kilojoules(ledger->stored),
               fmt::format("{:.1e} J", ledger->gap),
               fmt::format("{:.0e} of the heat made", ledger->worst_gap)});
  }
  return table.markup(
      "Heat made must be heat given off plus heat stored; what is left over is the "
      "arithmetic's own error.");
}

}  // namespace ampstair::post::report
