// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <iostream>
#include <string>
#include <vector>

#include "checks/histories.hpp"
#include "checks/stored_items.hpp"
#include "checks/verdict.hpp"
#include "diagnostics/problem.hpp"
#include "history/sha256.hpp"
#include "report/source.hpp"
#include "verbs/post_verbs.hpp"
#include "verbs/record_options.hpp"
#include "watch/item_file.hpp"

namespace ampstair::post::verbs {

namespace {

namespace fs = std::filesystem;

report::Source open_source(const std::string& record, const Given& given) {
  report::Source source;
  source.file = fs::path(record).filename().string();
  source.histories = checks::open_record(record);
  source.sha256 = history::sha256_of_file(record);
  const auto items = given.has("watch") ? watch::read_items(given.options.at("watch"))
                                        : checks::stored_items(*source.histories);
  auto verdict = checks::verdict_on(*source.histories, items);
  source.findings = std::move(verdict.findings);
  source.settling = std::move(verdict.settling);
  source.device = std::move(verdict.device);
  source.opening = verdict.opening;
  source.readings = checks::readings(*source.histories, source.findings);
  source.budgets = checks::usable_budgets(*source.histories, source.findings.validity);
  return source;
}

report::Reader reader_of(const Given& given) {
  if (!given.has("for")) {
    return report::Reader::all;
  }
  const std::string& word = given.options.at("for");
  if (word == "court") {
    return report::Reader::court;
  }
  if (word == "class") {
    return report::Reader::class_room;
  }
  if (word == "bench") {
    return report::Reader::bench;
  }
  throw diagnostics::InputError("E706", fmt::format("there is no page for '{}'.", word),
                                "write  --for court, --for class or --for bench");
}

/// Writes beside the file and renames, so that a page is whole or not there.
void write_page(const std::string& name, const std::string& text, bool overwrite) {
  if (fs::exists(name) && !overwrite) {
    throw diagnostics::InputError("E704", fmt::format("'{}' is there already.", name),
                                  "choose another name, or add  --overwrite");
  }
  const std::string unfinished = name + ".partial";
  std::ofstream file(unfinished, std::ios::binary);
  file << text;
  file.close();
  std::error_code failure;
  if (file) {
    fs::rename(unfinished, name, failure);
  }
  if (!file || failure) {
    std::error_code ignored;
    fs::remove(unfinished, ignored);
    throw diagnostics::InputError("E705", fmt::format("'{}' cannot be written.", name),
                                  "see that the folder is there and may be written to");
  }
}

}  // namespace

diagnostics::ExitCode report(Arguments arguments) {
  const RecordOptions options(
      "report",
      "report RECORD... -o PAGE.html [--for court|class|bench] [--watch FILE] [--overwrite]",
      "Writes one page that can be read without a network: answers, figures and tables of the "
      "first\n"
      "record, the others set beside it.",
      {{"output,o", "PAGE.html", "the page to write"},
       {"for", "READER",
        "court: twelve sections with blanks for the person who signs; class: results hidden until\n"
        "guesses are typed; bench: one card to print"},
       {"watch", "FILE", "judge by the watch items of this YAML file instead"},
       {"overwrite", "", "replace a page of that name"}},
      RecordOptions::Records::several);
  const auto given = options.read(arguments);
  if (!given) {
    return diagnostics::ExitCode::clear;
  }
  if (!given->has("output")) {
    throw diagnostics::InputError("E703", "report needs to know where to write the page.",
                                  "add  -o PAGE.html");
  }
  const auto reader = reader_of(*given);
  std::vector<report::Source> sources;
  sources.push_back(open_source(given->record, *given));
  for (const auto& other : given->others) {
    sources.push_back(open_source(other, *given));
  }
  const auto& name = given->options.at("output");
  write_page(name, report::page(sources, reader), given->has("overwrite"));
  std::cout << name << '\n';
  return diagnostics::ExitCode::clear;
}

}  // namespace ampstair::post::verbs
