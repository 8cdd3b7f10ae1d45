// SPDX-License-Identifier: MIT
#include "report/first_screen.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>

#include "checks/amounts.hpp"
#include "checks/sentences.hpp"
#include "checks/validity.hpp"
#include "report/html.hpp"
#include "report/words.hpp"

namespace ampstair::post::report {

namespace {

using checks::figures;

std::string answer(const char* question, const std::string& id, const std::string& markup) {
  return fmt::format("<dt>{}</dt><dd id=\"{}\">{}</dd>\n", question, id, markup);
}

std::string list(const std::vector<std::string>& lines) {
  std::string text = "<ul>";
  for (const auto& line : lines) {
    text += "<li>" + line + "</li>";
  }
  return text + "</ul>";
}

std::optional<checks::Reading> hottest_at_end(const checks::StepFinding& step) {
  for (const auto& part : step.parts) {
    if (part.part == "conductor") {
      return part.at_end;
    }
  }
  return std::nullopt;
}

std::string hottest_places(const Source& source) {
  std::vector<std::string> lines;
  for (const auto& step : source.findings.steps) {
    if (const auto hottest = hottest_at_end(step)) {
      lines.push_back(fmt::format("step {}, {}: <b>{}</b> at {}", step.number, amperes(step.got),
                                  both_readings(*hottest), place(hottest->spot)));
    }
  }
  return lines.empty() ? "The record holds no conductor temperature." : list(lines);
}

std::string too_much(const Source& source) {
  if (source.findings.items.empty()) {
    return "Nothing is watched in the run sheet, so no step can be told to be too much.";
  }
  std::vector<std::string> lines;
  for (const auto& item : source.findings.items) {
    std::string line = escaped(item.item.name) + " " + state_mark(item.state);
    if (const auto& crossing = item.crossing) {
      line += fmt::format(" at minute {}, {}, {}", crossing_minute(*crossing),
                          amperes(crossing->current), place(crossing->spot));
      if (crossing->step) {
        line += fmt::format(", step {}", *crossing->step);
      }
    } else if (!item.remark.empty()) {
      line += ": " + escaped(item.remark);
    }
    lines.push_back(line);
  }
  return list(lines);
}

std::string settled(const Source& source) {
  std::vector<std::string> lines;
  for (const auto& step : source.settling) {
    lines.push_back(fmt::format("step {}: {}", step.number, rest_words(step)));
  }
  return lines.empty() ? "No step of the record is long enough to tell." : list(lines);
}

std::string opens(const Source& source) {
  if (!source.device) {
    return "No device given; nothing can be said about opening.";
  }
  std::vector<std::string> lines;
  const auto& opening = source.opening;
  lines.push_back(opening.latest
                      ? fmt::format("A device that meets the stated limits must have opened by "
                                    "minute {}.",
                                    minutes(*opening.latest))
                      : std::string("A device that meets the stated limits need not have opened."));
  for (const auto& item : source.findings.items) {
    if (item.crossing) {
      lines.push_back(escaped(item.item.name) + ": " +
                      checks::device_sentence(opening, *item.crossing));
    }
  }
  return list(lines) + "<p class=\"plain\">The model does not show whether it did.</p>";
}

std::string would_read(const Source& source) {
  std::vector<std::string> lines;
  const std::size_t last =
      source.readings.empty()
          ? 0
          : std::max_element(source.readings.begin(), source.readings.end(),
                             [](const auto& a, const auto& b) { return a.step < b.step; })
                ->step;
  for (const auto& reading : source.readings) {
    if (reading.step != last || reading.instrument == "hand" || std::isnan(reading.shown)) {
      continue;
    }
    const bool volts = reading.of == checks::InstrumentReading::Of::volts;
    std::string line = escaped(reading.instrument) + ", " + escaped(reading.place) + ": ";
    line += volts ? fmt::format("<b>{:.3f} V</b>", reading.shown)
                  : fmt::format("<b>{}</b> where the surface or bead is at {}",
                                both_temperatures(reading.shown), both_temperatures(reading.real));
    lines.push_back(line + (reading.remark.empty() ? "" : "; " + escaped(reading.remark)));
  }
  if (lines.empty()) {
    return "The run sheet names no instruments.";
  }
  return fmt::format("<p>At the end of step {}:</p>", last) + list(lines);
}

std::string set_beside(const std::vector<Source>& sources) {
  if (sources.size() == 1) {
    return "One record was given. Give the records of other arrangements as well "
           "(<code>ampstair-post report A.h5 B.h5</code>) to see them side by side.";
  }
  std::vector<std::string> lines;
  for (const auto& source : sources) {
    const auto& hottest = source.findings.hottest_conductor;
    lines.push_back(escaped(source.findings.heading.arrangement) + ": " +
                    (hottest ? fmt::format("<b>{}</b> at {}, minute {}", both_readings(*hottest),
                                           place(hottest->spot), minutes(hottest->time))
                             : std::string("no conductor temperature")));
  }
  return list(lines);
}

std::string how_sure(const Source& source) {
  std::vector<std::string> lines;
  const auto& flags = source.findings.validity;
  for (const auto& note : source.findings.notes) {
    const bool of_flag = std::any_of(flags.begin(), flags.end(), [&](const auto& flag) {
      return checks::flag_text(flag) == note;
    });
    if (!of_flag) {  // those have an answer of their own
      lines.push_back(escaped(note));
    }
  }
  lines.emplace_back(
      "No inputs were drawn from their bands in a single march: a probability is not "
      "available.");
  return list(lines);
}

std::string inside_the_model(const Source& source) {
  std::vector<std::string> lines;
  for (const auto& flag : source.findings.validity) {
    lines.push_back(escaped(checks::flag_text(flag)));
  }
  std::string text =
      lines.empty() ? "No range of a property or a correlation was left." : list(lines);
  if (const auto& reason = source.findings.heading.beyond; !reason.empty()) {
    text = "<b>The march was told to go on past its own stops: " + escaped(reason) + "</b>" + text;
  }
  return text +
         "<p class=\"plain\">Not modelled at all: ignition, flame, arcing, molten droplets, "
         "smoke, spread of fire, cause.</p>";
}

std::string repeatable(const Source& source) {
  const auto& run = source.findings.heading;
  return fmt::format(
      "Run sheet {} (SHA-256 {}), word for word below; marched by {}, commit {}. "
      "Record {}, SHA-256 <code>{}</code>.",
      escaped(run.sheet_name), escaped(source.histories->attribute("sheet_sha256")),
      escaped(run.program), escaped(run.commit), escaped(source.file), escaped(source.sha256));
}

}  // namespace

std::string answers(const std::vector<Source>& sources) {
  const Source& source = sources.front();
  std::string text = "<dl class=\"answers\">\n";
  text += answer("What is the hottest place, at each step?", "q1", hottest_places(source));
  text += answer("Which step was too much, where and when?", "q2", too_much(source));
  text += answer("Had it settled when the next step began?", "q3", settled(source));
  text += answer("What would instruments have shown?", "q4", would_read(source));
  text +=
      answer("What current could it have carried for good?", "q5",
             "Not told by one march: it takes marches that close in on a current, for a stated "
             "limit and a stated risk. A limit that stayed clear here is no permission to carry "
             "the current.");
  text += answer("How much worse elsewhere?", "q6", set_beside(sources));
  text += answer("Would the device have opened first?", "q7", opens(source));
  text += answer("How sure is this?", "q8", how_sure(source));
  text += answer("Is this inside what the model is good for?", "q9", inside_the_model(source));
  text += answer("Can somebody else repeat it?", "q10", repeatable(source));
  return text + "</dl>\n";
}

}  // namespace ampstair::post::report
