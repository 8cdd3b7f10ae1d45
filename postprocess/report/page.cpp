// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <cstddef>
#include <map>
#include <nlohmann/json.hpp>

#include "checks/amounts.hpp"
#include "checks/cautions.hpp"
#include "checks/validity.hpp"
#include "checks/zero_celsius.hpp"
#include "report/budget.hpp"
#include "report/envelope.hpp"
#include "report/first_screen.hpp"
#include "report/forms.hpp"
#include "report/html.hpp"
#include "report/origins.hpp"
#include "report/resources.hpp"
#include "report/section.hpp"
#include "report/series.hpp"
#include "report/source.hpp"
#include "report/tables.hpp"
#include "report/words.hpp"

namespace ampstair::post::report {

namespace {

using nlohmann::json;

constexpr std::size_t strip_rows = 130;
constexpr std::size_t strip_places = 210;

// ---- the data the figures are drawn from
// ---------------------------------------------------------

json pieces(const checks::Histories& histories) {
  json all = json::array();
  if (!histories.has("pieces")) {
    return all;
  }
  const auto name = histories.texts("pieces", "name");
  const auto kind = histories.texts("pieces", "kind");
  const auto begin = histories.numbers("pieces", "begin");
  const auto end = histories.numbers("pieces", "end");
  for (std::size_t i = 0; i < name.size(); ++i) {
    if (end[i] > begin[i]) {
      all.push_back({{"name", name[i]},
                     {"kind", kind[i]},
                     {"begin", begin[i]},
                     {"end", end[i]},
                     {"odd", all.size() % 2 == 1}});
    }
  }
  return all;
}

/// Limits as lines; they are not let set the scale much beyond what the run reaches.
json limits(const checks::Findings& findings) {
  json all = json::array();
  double reached = 0.0;
  if (findings.hottest_conductor) {
    reached = findings.hottest_conductor->temperature - celsius_zero;
  }
  for (const auto& item : findings.items) {
    const double celsius = item.item.limit - celsius_zero;
    if (item.item.kind == watch::Item::Kind::above && celsius < 1.25 * reached) {
      all.push_back({{"drawn", std::round(celsius * 10.0) / 10.0},
                     {"label", item.item.name + " (" + item.item.part + ")"}});
    }
  }
  return all;
}

/// Ends of the histories by the flags on the parts that are read from them.
Until ends_of_histories(const Source& source) {
  std::map<std::string, std::vector<std::string>> parts;
  if (source.histories->has("parts/name")) {
    const auto name = source.histories->texts("parts", "name");
    const auto series = source.histories->texts("parts", "series");
    for (std::size_t i = 0; i < name.size(); ++i) {
      parts[series[i]].push_back(name[i]);
    }
  }
  return [parts, flags = source.findings.validity](const std::string& history) {
    const auto found = parts.find(history);
    return found == parts.end() ? std::nullopt : checks::usable_until(flags, found->second);
  };
}

json record_data(const Source& source, bool whole) {
  const auto& histories = *source.histories;
  const Until until = ends_of_histories(source);
  json out;
  out["name"] = source.findings.heading.arrangement;
  out["timeline"] = timeline(histories, until);
  out["ends"] = json::array();
  for (const auto& step : source.findings.steps) {
    out["ends"].push_back(step.end / 60.0);
  }
  if (whole) {
    out["pieces"] = pieces(histories);
    out["limits"] = limits(source.findings);
    out["strip"] = strip(histories, until, strip_rows, strip_places);
    out["along"] = along(histories, until);
    out["budget"] = budget_bars(source);
    out["envelope"] = envelope_data(source);
    out["sections"] = sections(histories, source.findings);
  }
  return out;
}

// ---- parts of the page
// ---------------------------------------------------------------------------

std::string figure(const char* id, const char* kind, const char* caption, const char* plain,
                   const std::string& controls = {}) {
  return fmt::format(
      "<figure id=\"{}\" data-kind=\"{}\"><figcaption>{}</figcaption>\n{}<div class=\"chart\" "
      "role=\"img\" aria-label=\"{}\"></div>\n<p class=\"plain\">{}</p>\n{}</figure>\n",
      id, kind, caption, controls, caption, plain, origin_line(id));
}

std::string section_figure(const json& sections) {
  if (sections.empty()) {
    return "<p>The record keeps no r-z fields, so there is no section to draw.</p>\n";
  }
  std::string choices;
  for (const auto& section : sections) {
    choices += fmt::format("<option>{}</option>", escaped(section["name"].get<std::string>()));
  }
  return figure("p7", "section", "P7 Section along the wire: temperature above, material below",
                "The axis of the wire runs through the middle. Move the slider through the fields "
                "the record keeps; all moments share one scale.",
                "<div class=\"controls\"><label>place <select aria-label=\"place\">" + choices +
                    "</select></label><label>time <input type=\"range\" min=\"0\" value=\"0\" "
                    "step=\"1\" aria-label=\"time\"></label><output></output></div>");
}

std::string heading(const Source& source) {
  const auto& run = source.findings.heading;
  std::string text = fmt::format(
      "<header><h1 id=\"title\">{}</h1>\n<p class=\"under\">Arrangement “{}”, run sheet {}, "
      "marched "
      "by {} on {}; {} at minute {}.</p></header>\n",
      escaped(run.title), escaped(run.arrangement), escaped(run.sheet_name), escaped(run.program),
      escaped(run.created), run.finished ? "finished" : "UNFINISHED", minutes(run.ends));
  return text;
}

std::string cautions() {
  std::string text = "<div class=\"cautions\">";
  for (const auto line : checks::cautions) {
    text += fmt::format("<p>{}</p>", escaped(line));
  }
  return text +
         "<p>A model’s figures describe its inputs. Before any bench test: an isolated, "
         "current-limited, extra-low-voltage supply, a second person, extinguisher and "
         "ventilation; "
         "never in a wall, never on evidence, never on a circuit in use.</p></div>\n";
}

std::string finding_sentence(const Source& source) {
  const auto& hottest = source.findings.hottest_conductor;
  if (!hottest) {
    return {};
  }
  return fmt::format(
      "<p id=\"finding\">Under the inputs listed, the model gives a hottest conductor temperature "
      "of "
      "<b>{}</b> at {}, at minute {}{}.</p>\n",
      both_readings(*hottest), place(hottest->spot), minutes(hottest->time),
      source.findings.hottest_step ? fmt::format(", in step {}", *source.findings.hottest_step)
                                   : "");
}

std::string figures(const std::vector<Source>& sources, const json& first) {
  std::string text =
      figure("p1", "timeline",
             "P1 Timeline: the current asked (dashed) and got, and the hottest of "
             "each part",
             "Turn the wheel to zoom, drag to move, double-click to see all; the line follows the "
             "pointer. Dashed lines across are the limits of the run sheet.");
  text += figure("p2", "strip", "P2 Strip map: where the conductor is hot, and when",
                 "Distance runs across, time runs down; light is hot. White dashes are the ends of "
                 "steps. What was drawn together is shown by its hottest.");
  text += figure("p3", "along",
                 "P3 Along the wire at the end of each step: conductor (full), surface "
                 "(dashed)",
                 "Turn the wheel to zoom, double-click to see all.");
  if (sources.size() > 1) {
    text += figure("p4", "overlay", "P4 Records on one clock: hottest conductor",
                   "The same current at the same time; what differs is the arrangement.");
  }
  if (!first["envelope"].is_null()) {
    text += figure(
        "p5", "envelope", "P5 What the device has to do, and what the steps carried",
        "A device that keeps its stated limits carries what lies below the dotted line for good, "
        "and "
        "has to have opened where the line of a step comes into the shaded field; between the two "
        "it "
        "may open or not. A step's line is full through the step and dashed while later steps "
        "carry "
        "more. Marks tell by their shape how a crossing stands to the latest opening, the cross. "
        "Whether this device met its limits, or opened, the model does not show.");
  }
  text += section_figure(first["sections"]);
  if (!first["budget"].empty()) {
    text +=
        figure("p8", "budget", "P8 Heat budget: the hottest place and the middle of every piece",
               "At the end of the step with the hottest conductor. A bar to the right is heat "
               "that comes in, to the left heat that stays or goes; both are as long.");
  }
  return text;
}

std::string tables(const std::vector<Source>& sources) {
  const Source& source = sources.front();
  std::string text = steps(source) + settling(source) + first_crossings(source) + device(source) +
                     records_beside(sources);
  return text + instruments(source) + validity(source) + energy_ledger(source) +
         heat_budget(source) + run_ledger(source) + values_and_sources(source);
}

std::string run_sheet(const Source& source) {
  return fmt::format(
      "<details id=\"sheet\"><summary>{}, word for word</summary><pre>{}</pre>"
      "</details>\n",
      escaped(source.findings.heading.sheet_name), escaped(source.histories->sheet_text()));
}

std::string scripts(const json& data) {
  std::string text = "<script type=\"application/json\" id=\"page-data\">" + json_in_page(data) +
                     "</script>\n<script type=\"application/json\" id=\"page-figures\">";
  text += resources::figures();
  text += "</script>\n<script>\n";
  text += resources::charts();
  text += "</script>\n<script>\n";
  text += resources::script();
  return text + "</script>\n";
}

std::string for_all(const std::vector<Source>& sources, const Parts& parts) {
  return parts.finding + parts.answers + parts.cautions + "<div id=\"results\"><h2>Figures</h2>\n" +
         parts.figures + "<h2>Tables</h2>\n" + tables(sources) + "</div>\n<h2>Run sheet</h2>\n" +
         parts.run_sheet + parts.cautions;
}

std::string body(const std::vector<Source>& sources, const Parts& parts, Reader reader) {
  switch (reader) {
    case Reader::court:
      return for_court(sources, parts);
    case Reader::class_room:
      return for_class(sources, parts);
    case Reader::bench:
      return for_bench(sources, parts);
    case Reader::all:
      break;
  }
  return for_all(sources, parts);
}

}  // namespace

std::string page(const std::vector<Source>& sources, Reader reader) {
  const Source& source = sources.front();
  json data;
  data["records"] = json::array();
  for (std::size_t i = 0; i < sources.size(); ++i) {
    data["records"].push_back(record_data(sources[i], i == 0));
  }
  std::string text = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n<meta name=\"viewport\" "
      "content=\"width=device-width, initial-scale=1\">\n<title>{}</title>\n<style>\n",
      escaped(source.findings.heading.title));
  text += resources::style();
  text += "</style></head>\n<body>\n" + heading(source) + "<main>\n";
  text += body(sources,
               {finding_sentence(source), answers(sources), figures(sources, data["records"][0]),
                run_sheet(source), cautions()},
               reader);
  const bool draws = reader != Reader::bench;
  return text + "</main>\n" + (draws ? scripts(data) : std::string()) + "</body></html>\n";
}

}  // namespace ampstair::post::report
