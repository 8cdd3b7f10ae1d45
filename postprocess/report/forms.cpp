// SPDX-License-Identifier: MIT
#include "report/forms.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>

#include "checks/amounts.hpp"
#include "checks/drive.hpp"
#include "checks/zero_celsius.hpp"
#include "report/html.hpp"
#include "report/series.hpp"
#include "report/tables.hpp"
#include "report/words.hpp"

namespace ampstair::post::report {

namespace {

using Align = Table::Align;

constexpr double between_rows = 300.0;  // s, of a bench card
constexpr std::size_t most_guesses = 5;
constexpr const char* blank = "<span class=\"blank\"></span>";

std::string section(int number, const char* title, const std::string& markup) {
  return fmt::format("<section id=\"s{}\"><h2>{} {}</h2>\n{}</section>\n", number, number, title,
                     markup);
}

std::string to_fill_in(const std::vector<const char*>& lines) {
  std::string text;
  for (const char* line : lines) {
    text += fmt::format("<p>{}: {}</p>\n", line, blank);
  }
  return text;
}

std::string facts(const Source& source) {
  return "<p>Data of the run sheet with their stated sources follow; add for every measured item "
         "who "
         "measured it, when, how, with what uncertainty, and its evidence tag.</p>\n" +
         values_and_sources(source);
}

std::string method(const Source& source) {
  const auto& run = source.findings.heading;
  return fmt::format(
      "<p>One-dimensional conduction along the conductor, two-dimensional (radius and length) in "
      "all "
      "that surrounds it, by conservative finite volumes; heat made by the current in the "
      "conductor’s resistance at its temperature; given off by convection and radiation; marched "
      "in "
      "time with estimated error. Program {}, commit {}. The correlations used, with author, year "
      "and range, are listed with the values in section 4.</p>\n",
      escaped(run.program), escaped(run.commit));
}

std::string uncertainty(const Source& source) {
  std::string text = "<ul>";
  for (const auto& note : source.findings.notes) {
    text += "<li>" + escaped(note) + "</li>";
  }
  return text + "</ul><p>What would change the finding: " + blank + "</p>\n";
}

std::string attachments(const std::vector<Source>& sources) {
  std::string text = "<ul>";
  std::string again;
  for (const auto& source : sources) {
    text += fmt::format("<li>record {}: SHA-256 <code>{}</code></li>", escaped(source.file),
                        escaped(source.sha256));
    again += fmt::format("ampstair run {} --arrangement \"{}\"\n",
                         escaped(source.findings.heading.sheet_name),
                         escaped(source.findings.heading.arrangement));
  }
  return text + "</ul><p>To march again:</p><pre>" + again + "</pre>" +
         to_fill_in({"Readings", "Photographs", "Changes since the last issue"});
}

/// degC of a part's hottest at the last row before or at a time.
std::string at_time(const std::vector<double>& times, const std::vector<double>& values,
                    double time, int decimals = 1) {
  const auto after = std::upper_bound(times.begin(), times.end(), time * (1.0 + 1e-12));
  if (after == times.begin() || values.empty()) {
    return "–";
  }
  const double value = values[static_cast<std::size_t>(after - times.begin()) - 1];
  return std::isfinite(value) ? checks::figures(value, decimals) : "–";
}

std::string stop_limits(const Source& source) {
  std::string text = "<p><b>Stop limits, read from instruments and not from this card:</b></p><ul>";
  for (const auto& item : source.findings.items) {
    text += fmt::format("<li><b>{} {}</b> ({})</li>", escaped(item.item.part),
                        escaped(checks::limit_text(item.item)), escaped(item.item.name));
  }
  return text +
         "</ul><p><b>The model is not an interlock.</b> The person at the switch stops the "
         "run at the first limit, at smoke, and at anything unexpected.</p>\n";
}

/// What a curve of a bench card is called in the record and on the card.
struct CardCurve {
  const char* series;
  const char* heading;
};
constexpr std::array<CardCurve, 4> card_curves{{{"conductor_temperature", "copper, °C"},
                                                {"surface_temperature", "surface, °C"},
                                                {"ceramic_temperature", "ceramic, °C"},
                                                {"wood_temperature", "wood, °C"}}};

std::string bench_table(const Source& source) {
  const auto& histories = *source.histories;
  const auto times = histories.times();
  const checks::Drive drive(histories);
  std::vector<Table::Column> columns = {{"minute", Align::right},
                                        {"step", Align::right},
                                        {"asked, A", Align::right},
                                        {"volts over the wire", Align::right}};
  std::vector<std::vector<double>> curves;
  for (const auto& curve : card_curves) {
    if (histories.has(curve.series)) {
      columns.push_back({std::string("hottest ") + curve.heading, Align::right});
      curves.push_back(hottest_of_rows(histories, curve.series, times.size()));
    }
  }
  for (const char* heading : {"read: place 1", "read: place 2", "read: volts", "seen, smelt"}) {
    columns.push_back({heading, Align::left});
  }
  Table table("card", "Bench card: what the model expects, and a blank for what is", columns);
  const auto asked = histories.scalar("current_asked");
  const auto volts = histories.scalar("voltage");
  for (double time = between_rows; !times.empty() && time <= times.back() * (1.0 + 1e-9);
       time += between_rows) {
    const auto step = drive.step_at(time);
    std::vector<std::string> cells = {minutes(time), step ? fmt::format("{}", *step + 1) : "–",
                                      at_time(times, asked, time), at_time(times, volts, time, 2)};
    for (const auto& curve : curves) {
      cells.push_back(at_time(times, curve, time));
    }
    cells.insert(cells.end(), 4, "");
    table.add(cells);
  }
  return table.markup(
      "Single run without bands: each figure is the nominal one. Where a step begins, "
      "the line is of the step that ends.");
}

std::string bench_cautions() {
  return "<div class=\"cautions\"><p>Isolated, current-limited, extra-low-voltage supply; no "
         "connection to building mains. One person whose only task is the switch, a second person "
         "present. Rig on a non-combustible board; extinguishers for electrical fire and for "
         "smouldering wood; wood stays under watch for hours after. Extraction or open air: old "
         "rubber, cloth, tape and paint give off fumes that harm, and may hold asbestos or lead. "
         "Eye "
         "and heat protection; nothing above bare skin; stand off above dull red. Do not touch to "
         "measure.</p></div>\n";
}

}  // namespace

std::string for_court(const std::vector<Source>& sources, const Parts& parts) {
  const Source& source = sources.front();
  const std::string results = parts.finding + steps(source) + settling(source) +
                              first_crossings(source) + device(source) + records_beside(sources) +
                              instruments(source) + energy_ledger(source) + parts.figures;
  return section(1, "Assignment and question",
                 to_fill_in({"Question as put", "Asked by", "Date"})) +
         section(2, "Qualification and role of the preparer",
                 to_fill_in({"Name", "Qualification", "Role", "Signature"})) +
         section(3, "Summary of findings",
                 parts.finding + to_fill_in({"Finding, in the preparer’s words",
                                             "Level of certainty, as the preparer judges it"})) +
         section(4, "Facts and data relied on", facts(source) + run_ledger(source)) +
         section(5, "Hypotheses considered",
                 to_fill_in({"Hypothesis 1", "Hypothesis 2", "Hypothesis 3", "Undetermined"})) +
         section(6, "Method", method(source)) +
         section(7, "Inputs, word for word", parts.run_sheet) + section(8, "Results", results) +
         section(9, "Uncertainty and sensitivity", uncertainty(source)) +
         section(10, "Each hypothesis against each fact",
                 "<p>Consistent, not consistent, or not tested, with the number behind it.</p>" +
                     to_fill_in({"Fact 1", "Fact 2", "Fact 3", "Facts that do not fit"})) +
         section(11, "Limits of validity",
                 parts.cautions + validity(source) +
                     "<p>Not modelled: ignition, flame, arcing, molten droplets, the chemistry of "
                     "smoke, spread of fire, cause. Agreement with one application does not imply "
                     "agreement with others.</p>") +
         section(12, "Attachments", attachments(sources));
}

std::string for_class(const std::vector<Source>& sources, const Parts& parts) {
  std::string lines;
  std::size_t asked = 0;
  for (const auto& source : sources) {
    for (const auto& step : source.findings.steps) {
      for (const auto& part : step.parts) {
        if (part.part == "conductor" && asked < most_guesses) {
          lines += fmt::format(
              "<p><label>{}: hottest conductor at the end of step {} ({}), °C <input type=\"text\" "
              "inputmode=\"decimal\" size=\"6\" data-unit=\"°C\" "
              "data-answer=\"{:.1f}\"><span></span>"
              "</label></p>\n",
              escaped(source.findings.heading.arrangement), step.number, amperes(step.got),
              part.at_end.temperature - celsius_zero);
          ++asked;
        }
      }
    }
  }
  return "<h2>First guess</h2>\n<form id=\"guess\">" + lines +
         "<button type=\"submit\">Show what the model gives</button> <output id=\"guess-told\">"
         "</output></form>\n" +
         parts.run_sheet + "<div id=\"results\" class=\"hidden\">" + parts.finding + parts.answers +
         "<h2>Figures</h2>" + parts.figures + "<h2>Tables</h2>" + steps(sources.front()) +
         first_crossings(sources.front()) + records_beside(sources) + "</div>\n" + parts.cautions;
}

std::string for_bench(const std::vector<Source>& sources, const Parts& parts) {
  const Source& source = sources.front();
  return "<p>Rig: " + std::string(blank) + " Date: " + blank + " At the switch: " + blank +
         "</p>\n" + bench_cautions() + stop_limits(source) + bench_table(source) + parts.cautions;
}

}  // namespace ampstair::post::report
