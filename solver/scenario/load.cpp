// SPDX-License-Identifier: MIT
#include "scenario/load.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>
#include <vector>

#include "materials/library.hpp"
#include "scenario/arrangement.hpp"
#include "scenario/build.hpp"
#include "scenario/parts.hpp"
#include "sheet/nearest.hpp"

namespace ampstair::scenario {

namespace {

using diagnostics::ProblemList;
using diagnostics::Severity;

/// Errors of other arrangements join the list where nothing is told of their place yet.
void join_errors(const ProblemList& others, ProblemList& problems) {
  const auto told = problems.sorted();
  for (const auto& problem : others.sorted()) {
    const bool known = std::any_of(told.begin(), told.end(), [&](const auto& one) {
      return one.code == problem.code && one.place == problem.place;
    });
    if (problem.severity == Severity::error && !known) {
      problems.add(problem);
    }
  }
}

/// What a sheet calls a part of the run, e.g. in a watch item.
struct PartMention {
  const sheet::Text* part;
  std::string by;
};

std::vector<PartMention> mentions(const RunSheet& sheet) {
  std::vector<PartMention> found;
  for (const auto& item : sheet.watch) {
    found.push_back({&item.part, fmt::format("watch item '{}'", item.name.value)});
  }
  for (const auto& probe : sheet.probes) {
    found.push_back({&probe.part, fmt::format("probe '{}'", probe.name.value)});
  }
  if (sheet.instruments) {
    for (const auto& couple : sheet.instruments->thermocouples) {
      found.push_back({&couple.under, fmt::format("thermocouple '{}'", couple.name.value)});
    }
  }
  return found;
}

/// A part that no arrangement has is an error; one that this arrangement lacks is a doubt.
void check_parts(const RunSheet& sheet, const std::vector<std::string>& here,
                 const std::vector<std::string>& anywhere, ProblemList& problems) {
  const auto among = [](const std::string& part, const std::vector<std::string>& parts) {
    return std::find(parts.begin(), parts.end(), part) != parts.end();
  };
  for (const auto& [part, by] : mentions(sheet)) {
    if (!part->present() || among(part->value, here)) {
      continue;
    }
    if (among(part->value, anywhere)) {
      problems.warning(
          "W254", part->place,
          fmt::format("{} names '{}', which this arrangement does not have.", by, part->value),
          "it cannot be judged here");
      continue;
    }
    const auto near = sheet::nearest_words(part->value, anywhere);
    problems.error(
        "E252", part->place,
        fmt::format("{} names '{}', but nothing of this run is called that.", by, part->value),
        near.empty() ? fmt::format("the parts are {}", fmt::join(anywhere, ", "))
                     : fmt::format("nearest: {}; the parts are {}", near.front(),
                                   fmt::join(anywhere, ", ")));
  }
}

void check_all(const RunSheet& sheet, const materials::Library& library, const Scenario& chosen,
               ProblemList& problems) {
  std::vector<std::string> anywhere = parts_of(chosen);
  const ProblemList before = problems;
  for (const auto& name : arrangement_names(sheet)) {
    if (name == chosen.arrangement) {
      continue;
    }
    ProblemList of_other = before;
    for (const auto& part : parts_of(build_scenario(sheet, library, name, of_other))) {
      if (std::find(anywhere.begin(), anywhere.end(), part) == anywhere.end()) {
        anywhere.push_back(part);
      }
    }
    join_errors(of_other, problems);
  }
  if (!problems.has_errors()) {
    check_parts(sheet, parts_of(chosen), anywhere, problems);
  }
}

Loaded load_document(sheet::Document document, ProblemList problems, const std::string& arrangement,
                     const materials::Library& library) {
  Loaded loaded;
  loaded.document = std::move(document);
  if (loaded.document.root) {
    const RunSheet sheet = sheet::read(loaded.document, run_sheet_keys(), problems);
    loaded.scenario = build_scenario(sheet, library, arrangement, problems);
    check_all(sheet, library, loaded.scenario, problems);
    ProblemList told_already;
    loaded.sheet = arranged(sheet, arrangement, told_already);
  }
  if (problems.has_errors()) {
    throw diagnostics::InputError(std::move(problems));
  }
  loaded.warnings = std::move(problems);
  return loaded;
}

}  // namespace

Loaded load(const std::filesystem::path& path, const std::string& arrangement) {
  ProblemList problems;
  auto document = sheet::read_document(path, problems);
  return load_document(std::move(document), std::move(problems), arrangement,
                       materials::Library::beside(path));
}

Loaded load_text(std::string_view text, const std::string& name, const std::string& arrangement) {
  ProblemList problems;
  auto document = sheet::read_text(text, name, problems);
  return load_document(std::move(document), std::move(problems), arrangement,
                       materials::Library::beside(name));
}

}  // namespace ampstair::scenario
