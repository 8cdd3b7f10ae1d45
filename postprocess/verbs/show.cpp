// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <iostream>

#include "checks/amounts.hpp"
#include "checks/drive.hpp"
#include "checks/histories.hpp"
#include "checks/places.hpp"
#include "checks/stored_items.hpp"
#include "checks/validity.hpp"
#include "verbs/post_verbs.hpp"
#include "verbs/record_options.hpp"
#include "verbs/text_table.hpp"

namespace ampstair::post::verbs {

namespace {

using checks::figures;
using checks::Histories;
using checks::minute_text;

std::string header(const Histories& histories, const std::string& record) {
  std::string text = fmt::format("{}\n", record);
  for (const char* name : {"title", "arrangement", "record_kind", "format_version", "program",
                           "commit", "created", "sheet_name", "sheet_sha256"}) {
    text += fmt::format("  {:<15} {}\n", name, histories.attribute(name));
  }
  if (const auto reason = histories.beyond(); !reason.empty()) {
    text += fmt::format("  {:<15} {}\n", "beyond", reason);
  }
  return text;
}

std::string progress(const Histories& histories) {
  const checks::Drive drive(histories);
  const double ends = drive.times().empty() ? 0.0 : drive.times().back();
  const double planned = drive.steps().empty() ? ends : drive.steps().back().end;
  return fmt::format("  {:<15} {}, {} rows\n", "finished",
                     histories.finished() ? "yes, at " + minute_text(ends)
                                          : fmt::format("no: ends at {} of {}", minute_text(ends),
                                                        minute_text(planned)),
                     drive.times().size());
}

std::string pieces(const Histories& histories) {
  if (!histories.has("pieces/name")) {
    return {};
  }
  const std::vector<Column> columns = {
      {"piece", 24}, {"kind", 10}, {"from m", -8}, {"to m", -8}, {"surroundings", 40}};
  const auto names = histories.texts("pieces", "name");
  const auto kinds = histories.texts("pieces", "kind");
  const auto begins = histories.numbers("pieces", "begin");
  const auto ends = histories.numbers("pieces", "end");
  const auto around = histories.has("pieces/surroundings")
                          ? histories.texts("pieces", "surroundings")
                          : std::vector<std::string>(names.size());
  std::string text = "\nPieces\n" + table_heading(columns);
  for (std::size_t i = 0; i < names.size(); ++i) {
    text += table_row(columns, {names[i], kinds.at(i), fmt::format("{:.3f}", begins.at(i)),
                                fmt::format("{:.3f}", ends.at(i)), around.at(i)});
  }
  return text;
}

std::string steps(const Histories& histories) {
  const std::vector<Column> columns = {
      {"step", -4}, {"kind", 13}, {"level", -9}, {"from min", -9}, {"to min", -9}};
  std::string text = "\nSteps\n" + table_heading(columns);
  std::size_t number = 0;
  const checks::Drive drive(histories);
  for (const auto& step : drive.steps()) {
    const std::string unit = step.kind == "hold_voltage" ? " V" : " A";
    text += table_row(columns, {fmt::format("{}", ++number), step.kind,
                                step.kind == "rest" ? "" : figures(step.level, 2) + unit,
                                figures(step.begin / 60.0, 1), figures(step.end / 60.0, 1)});
  }
  return text;
}

std::string series(const Histories& histories) {
  const std::vector<Column> columns = {
      {"history", 33}, {"unit", 5}, {"shape", 26}, {"meaning", 28}};
  const std::size_t rows = histories.times().size();
  std::string text = "\nHistories\n" + table_heading(columns);
  for (const auto& one : histories.series()) {
    const std::string shape =
        one.axis.empty()
            ? fmt::format("{}", rows)
            : fmt::format("{} x {} ({})", rows, histories.axis(one.axis).size(), one.axis);
    text += table_row(columns, {one.naming.name, one.naming.units, shape, one.naming.long_name});
  }
  return text;
}

std::string probes(const Histories& histories) {
  if (!histories.has("probes/name")) {
    return {};
  }
  const std::vector<Column> columns = {{"probe", 30}, {"at m", -8}, {"of", 12}, {"radius", -9}};
  const auto names = histories.texts("probes", "name");
  const auto positions = histories.numbers("probes", "position");
  const auto of = histories.texts("probes", "of");
  const auto radii = histories.numbers("probes", "radius");
  std::string text = "\nProbes\n" + table_heading(columns);
  for (std::size_t i = 0; i < names.size(); ++i) {
    const double radius = radii.at(i);
    text += table_row(columns, {names[i], fmt::format("{:.3f}", positions.at(i)), of.at(i),
                                std::isnan(radius) ? "" : figures(radius * 1000.0, 2) + " mm"});
  }
  return text;
}

std::string items(const Histories& histories) {
  const std::vector<Column> columns = {
      {"watch item", 24}, {"part", 12}, {"limit", 20}, {"from", 36}};
  std::string text = "\nWatch items\n" + table_heading(columns);
  for (const auto& item : checks::stored_items(histories)) {
    text += table_row(columns, {item.name, item.part, checks::limit_text(item),
                                item.from.empty() ? "no source given" : item.from});
  }
  return text;
}

std::string validity(const Histories& histories) {
  std::string text;
  for (const auto& flag : checks::stored_flags(histories, checks::Places(histories))) {
    text += paragraph(checks::flag_text(flag), 2);
  }
  return text.empty() ? text : "\nOutside of what the model holds for\n" + text;
}

}  // namespace

diagnostics::ExitCode show(Arguments arguments) {
  const RecordOptions options("show", "show RECORD",
                              "Tells what a record holds and how far it goes.", {});
  const auto given = options.read(arguments);
  if (!given) {
    return diagnostics::ExitCode::clear;
  }
  const auto histories = checks::open_record(given->record);
  std::cout << header(*histories, given->record) << progress(*histories) << pieces(*histories)
            << steps(*histories) << series(*histories) << probes(*histories) << items(*histories)
            << validity(*histories);
  return diagnostics::ExitCode::clear;
}

}  // namespace ampstair::post::verbs
